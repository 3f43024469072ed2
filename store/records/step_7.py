"""The seventh step: how many days pass from an order of a product to its delivery.

The text of a step is never changed once it has been released; a later step can only add.
"""


def statements() -> tuple[str, ...]:
    """Return the SQL of the seventh step, in the order it is run."""
    return ("ALTER TABLE product ADD COLUMN lead_days INTEGER CHECK (lead_days BETWEEN 0 AND 730)",)
