"""How a book's database came to its shape: one migration a step, run by Alembic."""
