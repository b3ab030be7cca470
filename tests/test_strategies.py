"""Tests of the strategies themselves: none is missing, and what they make is good."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet import features
from cabinet.board import BoardSize
from cabinet.features import Feature
from tests.strategies import FEATURES, KINDS, LOCAL, Recipe, recipes, sizes


def feature_classes() -> set[type]:
    """All classes of features, found by what the rooms ask of them."""
    names = [module.name for module in pkgutil.iter_modules(features.__path__)]
    modules = [importlib.import_module(f"{features.__name__}.{name}") for name in names]
    return {
        kind
        for module in modules
        for _, kind in inspect.getmembers(module, inspect.isclass)
        if kind.__module__ == module.__name__ and hasattr(kind, "box") and hasattr(kind, "check")
    }


def test_every_feature_has_a_strategy() -> None:
    """A new class of feature fails here until it has a strategy, and until it is in the union."""
    assert feature_classes() == set(FEATURES) == set(get_args(Feature))
    assert set(LOCAL) < set(FEATURES)


@pytest.mark.parametrize("kind", KINDS)
@given(data=st.data(), size=sizes())
def test_features_fit_their_board(kind: type, data: st.DataObject, size: BoardSize) -> None:
    """What a strategy makes is of its class, is taken by its board, and lies on it."""
    feature = data.draw(FEATURES[kind](size))
    assert type(feature) is kind
    feature.check("board", size)
    box = feature.box(size)
    for low, high, extent in zip(box.low, box.high, size.along, strict=True):
        assert -1e-6 <= low < high <= extent + 1e-6


@given(recipe=recipes())
def test_recipes_resolve(recipe: Recipe) -> None:
    """Every recipe is a unit."""
    unit = recipe.design().resolve()
    assert unit.is_hung == bool(recipe.cleat)
    assert len(unit.by_name) == len(unit.parts)
