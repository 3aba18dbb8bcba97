"""Every rule that the program names is among the rules that the documentation lists."""

import ast
from collections.abc import Iterator
from pathlib import Path

import daterun
from daterun.checks.rules import RULES

MODULES = sorted(Path(daterun.__file__).parent.rglob("*.py"))
REPORTING = {"Problem": 0, "report": 0, "Kind": 3, "of_text": 3, "check_way": 3}
"""What takes the name of a rule, and as which of its arguments, from 0."""


def named_rules(module: Path) -> Iterator[str]:
    """Find the rules named in a module, as words or as a word of the module's own."""
    tree = ast.parse(module.read_text(encoding="utf-8"))
    words = {
        target.id: node.value.value
        for node in tree.body
        if isinstance(node, ast.Assign) and isinstance(node.value, ast.Constant)
        for target in node.targets
        if isinstance(target, ast.Name)
    }
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "id", getattr(node.func, "attr", ""))
        given = [each.value for each in node.keywords if each.arg == "rule"]
        at = REPORTING.get(name)
        if at is not None and len(node.args) > at:
            given.append(node.args[at])
        if at is None and not given:
            continue
        for each in given:
            if isinstance(each, ast.Constant) and isinstance(each.value, str):
                yield each.value
            elif isinstance(each, ast.Name) and isinstance(words.get(each.id), str):
                yield words[each.id]


def test_every_rule_that_a_module_names_is_listed() -> None:
    named = {rule: module.name for module in MODULES for rule in named_rules(module)}
    assert len(named) > 60
    assert {rule: module for rule, module in named.items() if rule not in RULES} == {}


def test_a_rule_is_told_in_one_sentence() -> None:
    for rule, sentence in RULES.items():
        assert rule == " ".join(rule.split())
        assert sentence[0].isupper()
        assert sentence.endswith(".")
        assert "\n" not in sentence
