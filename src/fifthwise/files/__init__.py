"""The user's files and folders: read whole up to a bound, written whole or not at all."""

from fifthwise.files.file import FileFault, read_bytes, write_file
from fifthwise.files.output_folder import MANIFEST, check_folder, write_folder

__all__ = ["MANIFEST", "FileFault", "check_folder", "read_bytes", "write_file", "write_folder"]
