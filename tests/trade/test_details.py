from daterun.trade.details import NO_PROBLEMS, PROBLEM_GROUPS, PROBLEM_REASONS


def test_the_words_for_problem_coins_are_grouped_without_repeats():
    assert sum(len(words) for words in PROBLEM_GROUPS.values()) == len(set(PROBLEM_REASONS))
    assert {"cleaned", "polished", "scratched", "holed", "dipped", "dented"} <= set(PROBLEM_REASONS)


def test_faults_of_making_are_no_reason_for_a_problem_coin():
    assert not set(NO_PROBLEMS) & set(PROBLEM_REASONS)
