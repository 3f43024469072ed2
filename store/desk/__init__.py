"""The front desk: what may be asked and done, with the clock and the transactions."""
