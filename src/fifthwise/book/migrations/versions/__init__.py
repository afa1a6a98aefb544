"""The migrations, each in a file named by its number."""
