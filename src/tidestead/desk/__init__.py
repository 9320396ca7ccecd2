"""The desk: knows the twelve questions, the order of subjects, and what need not be worked out twice."""

from tidestead.desk.answering import answer, facts, must_compile
from tidestead.desk.keeping import keep_on_disk
from tidestead.desk.subjects import ENTRIES, SUBJECTS, SubjectEntry

__all__ = ["ENTRIES", "SUBJECTS", "SubjectEntry", "answer", "facts", "keep_on_disk", "must_compile"]
