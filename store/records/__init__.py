"""The filing cabinet: what is written down, through peewee into SQLite."""
