import doctest

import pytest

from catalog.domain.lengths import inches
from quotes.domain import freight, lifecycle, money, order
from quotes.domain.freight import freight_class


@pytest.mark.parametrize("module", [freight, lifecycle, money, order])
def test_the_examples_in_the_words_hold(module: object) -> None:
    assert doctest.testmod(module).failed == 0  # type: ignore[arg-type]


def test_classes_without_an_end_are_refused() -> None:
    with pytest.raises(ValueError, match="stop short"):
        freight_class(inches(50), ())
