import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from daterun.sealed import seal, unseal

FACTS = '{"version":1,"made":{"½":[1,"é"]}}'


def test_what_is_sealed_is_json_and_comes_back_as_it_was():
    assert unseal(seal(FACTS)) == FACTS
    assert json.loads(seal(FACTS))["made"] == {"½": [1, "é"]}


@given(at=st.integers(0, 200), cut=st.integers(0, 3), put=st.text(max_size=3))
def test_what_is_not_as_it_was_is_refused(at, cut, put):
    sealed = seal(FACTS)
    changed = sealed[:at] + put + sealed[at + cut :]
    if changed == sealed:
        assert unseal(changed) == FACTS
    else:
        with pytest.raises(ValueError, match="not what was sealed"):
            unseal(changed)
