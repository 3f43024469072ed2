"""The tenth step: the firm's suppliers, and from which of them a product is bought.

The text of a step is never changed once it has been released; a later step can only add.
"""


def statements() -> tuple[str, ...]:
    """Return the SQL of the tenth step, in the order it is run."""
    return (
        "ALTER TABLE firm ADD COLUMN suppliers TEXT NOT NULL DEFAULT '[]' CHECK (suppliers GLOB '[[]*]')",
        "ALTER TABLE product ADD COLUMN supplier TEXT NOT NULL DEFAULT '' CHECK (length(supplier) <= 100000)",
    )
