"""Output folders: only fifthwise's own files are replaced, and nothing is half-written."""

import json
import os

import pytest

from fifthwise.files import MANIFEST, FileFault, write_folder

FIRST = {"books/isa.pdf": b"one", "key-sheet.pdf": b"two"}


def contents(folder):
    """Every file below a folder but the record of what was written."""
    files = (path for path in folder.rglob("*") if path.is_file() and path.name != MANIFEST)
    return {str(path.relative_to(folder)): path.read_bytes() for path in files}


def test_earlier_output_is_replaced_and_what_is_no_longer_made_goes(tmp_path):
    """A second run leaves exactly its own files."""
    write_folder(tmp_path / "out", FIRST)
    assert contents(tmp_path / "out") == FIRST
    second = {"books/isa.pdf": b"new", "books/ole.pdf": b"three"}
    write_folder(tmp_path / "out", second)
    assert contents(tmp_path / "out") == second


def test_files_of_others_are_left_alone(tmp_path):
    """A note put beside the books survives every run."""
    write_folder(tmp_path, FIRST)
    (tmp_path / "notes.txt").write_bytes(b"mine")
    write_folder(tmp_path, {"key-sheet.pdf": b"new"})
    assert contents(tmp_path) == {"notes.txt": b"mine", "key-sheet.pdf": b"new"}


def test_a_folder_with_other_files_asks_for_force(tmp_path):
    """Nothing is written unless --force is given."""
    (tmp_path / "thesis.pdf").write_bytes(b"mine")
    with pytest.raises(FileFault, match=r"did not write.*--force"):
        write_folder(tmp_path, FIRST)
    assert contents(tmp_path) == {"thesis.pdf": b"mine"}
    write_folder(tmp_path, FIRST, force=True)
    assert contents(tmp_path) == {"thesis.pdf": b"mine", **FIRST}


def test_a_book_changed_by_hand_asks_for_force(tmp_path):
    """Annotations are not overwritten, and stale books that were changed are kept."""
    write_folder(tmp_path, FIRST)
    (tmp_path / "books" / "isa.pdf").write_bytes(b"with my bowings")
    with pytest.raises(FileFault, match=r"books/isa\.pdf was changed"):
        write_folder(tmp_path, {"books/isa.pdf": b"new"})
    write_folder(tmp_path, {"key-sheet.pdf": b"new"})
    assert contents(tmp_path) == {"books/isa.pdf": b"with my bowings", "key-sheet.pdf": b"new"}


def test_a_record_that_points_outside_is_not_followed(tmp_path):
    """A forged record cannot make fifthwise delete a file elsewhere."""
    outside, folder = tmp_path / "outside.txt", tmp_path / "out"
    outside.write_bytes(b"x")
    write_folder(folder, FIRST)
    record = json.loads((folder / MANIFEST).read_text())
    record["files"]["../outside.txt"] = "2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881"
    (folder / MANIFEST).write_text(json.dumps(record))
    write_folder(folder, FIRST)
    assert outside.exists()


def test_a_file_in_the_folders_place_is_refused(tmp_path):
    """The message says what it is."""
    (tmp_path / "out").write_bytes(b"x")
    with pytest.raises(FileFault, match="a file, not a folder"):
        write_folder(tmp_path / "out", FIRST)


def test_a_folder_that_cannot_be_made_is_said(tmp_path):
    """A folder below a file cannot be made, whoever asks."""
    (tmp_path / "file").write_bytes(b"x")
    with pytest.raises(FileFault, match="cannot be made"):
        write_folder(tmp_path / "file" / "out", FIRST)


def test_no_temporary_name_is_left_behind(tmp_path):
    """After a run the folder holds the files and the record alone."""
    write_folder(tmp_path, FIRST)
    assert sorted(os.listdir(tmp_path)) == [MANIFEST, "books", "key-sheet.pdf"]
