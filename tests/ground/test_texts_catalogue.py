"""The list of texts for translators is the one the code has."""

from tests.texts_catalogue import CATALOGUE, catalogue


def test_the_list_for_translators_is_up_to_date() -> None:
    # babel reads the code by its own tokenizer.
    assert CATALOGUE.read_text(encoding="utf-8") == catalogue(), "renew it: python tests/check.py --fix"
