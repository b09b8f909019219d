"""What kind of yarn each one is: its length in other systems, its class and needles, with the source of the rule."""

from __future__ import annotations

from fractions import Fraction

from wale.checks.used import yarns_of
from wale.materials import Yarn
from wale.needles import show_needle
from wale.quantity import show_decimal
from wale.spec import Spec
from wale.write.yarn_needed import bought_yarns
from wale.yardage.report import strands_of
from wale.yarn import WeightClass, classes_by_metres, metres_range, needle_range, weight_classes

SOURCE = "classes and needles: Craft Yarn Council; lengths of classes: common practice"


def classes_of(yarn: Yarn, strands: int = 1) -> tuple[WeightClass, ...]:
    """Give the weight classes that a yarn may be of, so many strands held together."""
    if yarn.metres_per_100g is not None:
        return classes_by_metres(yarn.metres_per_100g / strands)
    return tuple(each for each in weight_classes() if each.number in yarn.classes) if strands == 1 else ()


def kind_words(spec: Spec) -> tuple[tuple[str, str], ...]:
    """Describe each yarn that is knitted with or bought: m per 100 g, tex, class, a sensible needle range."""
    names = dict.fromkeys((*(yarn.name for yarn in yarns_of(spec)), *bought_yarns(spec)))
    return tuple((f"{name}, its kind", _kind(spec, spec.yarns[name])) for name in names)


def _kind(spec: Spec, yarn: Yarn) -> str:
    strands = strands_of(spec, yarn.name)
    texts = []
    if yarn.metres_per_100g is not None:
        metres = yarn.metres_per_100g
        texts.append(f"{show_decimal(metres, 0)} m per 100 g, {show_decimal(100_000 / metres, 0)} tex")
    texts += [_class_words(classes_of(yarn))] if classes_of(yarn) else []
    if yarn.metres_per_100g is None and yarn.classes:
        low, high = metres_range(classes_of(yarn))
        so = "grams by the loop are a rough range" if low and high else "by the loop nothing is reckoned from it"
        texts.append(f"usually {_bounds(low, high)} m per 100 g, so {so}")
    if strands > 1 and yarn.metres_per_100g is not None:
        held = yarn.metres_per_100g / strands
        texts.append(
            f"{strands} strands together {show_decimal(held, 0)} m per 100 g, {_class_words(classes_of(yarn, strands))}"
        )
    return "; ".join([*texts, SOURCE])


def _class_words(classes: tuple[WeightClass, ...]) -> str:
    names = " or ".join(f"{each.number} {each.name}" for each in classes)
    low, high = needle_range(classes)
    low_text, high_text = (show_needle(one) if one is not None else None for one in (low, high))
    if low_text and high_text:
        return f"class {names}, needles {low_text} to {high_text}"
    return f"class {names}, needles " + (f"up to {high_text}" if high_text else f"from {low_text}")


def _bounds(low: Fraction | None, high: Fraction | None) -> str:
    if low is not None and high is not None:
        return f"{low} to {high}"
    return f"up to {high}" if high is not None else f"{low} and more"
