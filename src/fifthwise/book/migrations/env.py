"""What Alembic runs around the migrations: all in the one transaction that it is handed."""

from alembic import context

from fifthwise.book.tables import metadata

context.configure(
    connection=context.config.attributes["connection"], target_metadata=metadata, render_as_batch=True
)
with context.begin_transaction():
    context.run_migrations()
