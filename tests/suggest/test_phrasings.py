"""What fifteen people call each setting: no phrase that is sure is wrong, and hardly one is missed."""

import pytest

from tests.benchmarks.phrasings import listen, own_words, voices


@pytest.mark.parametrize("voice", ["programmer", "sentences_en", "kurz_de", "artisan_fr", "stage"])
def test_a_persons_own_words_are_understood(voice: str) -> None:
    assert voice in voices(True) + voices(False)
    heard = listen(own_words(voice))
    assert heard.wrong == ()
    assert heard.right >= 0.95 * heard.phrases
    assert heard.sure >= 0.7 * heard.phrases
