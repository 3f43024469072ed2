"""Views that fill the whole terminal; none knows another."""
