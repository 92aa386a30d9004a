"""The store: one SQLite file, its versions, queries, history, search and backup."""
