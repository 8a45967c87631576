"""Names, record numbers and dates held against each other."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from octavo.interpret.reports.likeness import date_likeness, name_likeness, number_likeness, one_slip

LETTERS = "abcdefghijklmnopqrstuvwxyzéüñøł"
PART = st.text(LETTERS, min_size=3, max_size=9)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Brandt, Kira", "Kira Brandt"),
        ("BRANDT KIRA", "kira brandt"),
        ("Frau Dr. Kira Brandt", "Kira Brandt"),
        ("José Núñez", "JOSE NUNEZ"),
        ("Jürgen Müller", "JUERGEN MUELLER"),  # ICAO Doc 9303 part 3, section 6: ü is UE or U
        ("Jürgen Müller", "Jurgen Muller"),
        ("Søren Østby", "Soeren Oestby"),
        ("O'Neill, Ann", "Ann ONeill"),
        ("Weiß", "WEISS"),
        ("Ma, Li", "Li Ma"),
    ],
)
def test_case_accents_order_and_titles_make_no_other_name(one: str, other: str) -> None:
    assert name_likeness(one, other) == name_likeness(other, one) == "same"


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Kira Brandt", "Kira Brandl"),
        ("Kira Brandt", "Kira Bandt"),
        ("Kira Brandt", "Brantd, Kira"),
        ("Kira Brandt", "Kira M. Brandt"),
        ("Kira Brandt", "K. Brandt"),
        ("Kira Brandt", "KiraBrandt"),
    ],
)
def test_one_slip_an_initial_or_a_middle_name_is_near(one: str, other: str) -> None:
    assert name_likeness(one, other) == name_likeness(other, one) == "near"


@pytest.mark.parametrize(
    ("one", "other"),
    [("Kira Brandt", "Kira Bremer"), ("Kira Brandt", "Mira Brendt"), ("Kira Brandt", "Brandt"), ("", "Kira"),
     ("…", "…"), ("Kira Brandt", "Jonas Brandt"), ("K. Brandt", "J. Holm")],
)  # fmt: skip
def test_other_names_are_different(one: str, other: str) -> None:
    assert name_likeness(one, other) == name_likeness(other, one) == "different"


@given(st.lists(PART, min_size=1, max_size=4), st.randoms(use_true_random=False))
def test_the_order_of_the_parts_never_matters(parts: list[str], chance) -> None:
    other = list(parts)
    chance.shuffle(other)
    assert name_likeness(" ".join(parts), ", ".join(other).upper().replace("ẞ", "SS")) == "same"


@given(st.text(LETTERS[:26], min_size=2, max_size=12), st.integers(0, 11), st.sampled_from(LETTERS[:26]))
def test_one_changed_letter_is_one_slip(word: str, place: int, letter: str) -> None:
    place %= len(word)
    other = word[:place] + letter + word[place + 1 :]
    assert one_slip(word, other) == one_slip(other, word) == (word != other)
    assert one_slip(word, word[:place] + word[place + 1 :])


@given(st.text("abc", max_size=5), st.text("abc", max_size=5))
def test_one_slip_is_a_distance_of_one(one: str, other: str) -> None:
    # By the textbook recursion of the restricted Damerau-Levenshtein distance, written here from memory.
    def distance(a: str, b: str) -> int:
        if not a or not b:
            return max(len(a), len(b))
        ways = [distance(a[1:], b) + 1, distance(a, b[1:]) + 1, distance(a[1:], b[1:]) + (a[0] != b[0])]
        if len(a) > 1 and len(b) > 1 and a[:2] == b[1::-1]:
            ways.append(distance(a[2:], b[2:]) + 1)
        return min(ways)

    assert one_slip(one, other) == (distance(one, other) == 1)


def test_record_numbers_are_compared_by_letters_and_digits_alone() -> None:
    assert number_likeness("HL-2019/0413", "hl 2019 0413") == "same"
    assert number_likeness("0413", "413") == "near"
    assert number_likeness("HL-20413", "HL-20418") == "near"
    assert number_likeness("HL-20413", "HL-30418") == "different"
    assert number_likeness("--", "--") == "different"


def test_a_birth_date_with_day_and_month_swapped_is_near() -> None:
    assert date_likeness("1958-03-04", "1958-03-04") == "same"
    assert date_likeness("1958-03-04", "1958-04-03") == "near"
    assert date_likeness("1958-03-04", "1953-03-04") == "near"
    assert date_likeness("1958-03-04", "1961-03-14") == "different"
    assert date_likeness("1958-03-04", "4 March") == "near"
