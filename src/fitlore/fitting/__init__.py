"""Decides what fits what, and builds the Because."""

from fitlore.fitting.answer import answer, answer_pair, answers
from fitlore.fitting.shape import Answer, Question, Verdict, Word

__all__ = ["Answer", "Question", "Verdict", "Word", "answer", "answer_pair", "answers"]
