"""Cases kept between starts: one that is open, and none once it is not."""

from counter.desk import Case, Kept, keep_open, last_customers, open_case
from counter.desk._kept_cases import LAST_FILE


def test_an_open_case_is_kept_until_it_is_not_open(tmp_path):
    keep_open(tmp_path, Kept("G23", Case(marks="CFT9W/G23")))
    assert open_case(tmp_path).case.marks == "CFT9W/G23"
    keep_open(tmp_path, None)
    assert open_case(tmp_path) is None
    keep_open(tmp_path, None)


def test_a_file_deeper_than_anybody_reads_holds_no_customers(tmp_path):
    (tmp_path / LAST_FILE).write_bytes(b'{"version": 1, "cases": ' + b"[" * 100_000 + b"]" * 100_000 + b"}")
    assert last_customers(tmp_path) == ()
