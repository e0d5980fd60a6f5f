"""What puts each smallest failing book right: the one change after which its rule has nothing to say, nor has any other."""

from __future__ import annotations

from typing import Final

_KT_2: Final = "- part: KT 2\n  maker: Kestin\n  is: hose\n"
_OS_7: Final = "- part: OS 7\n  maker: Ostra\n  is: hose\n"
_HOSE: Final = "- category: hose\n  safety: none\n"
_KT_1: Final = f"{_HOSE}- part: KT 1\n  maker: Kestin\n  is: hose\n"

CURES: Final[dict[str, tuple[str, str]]] = {
    "Q01-unknown-part-in-claim": ("- crossfit", f"{_OS_7}- crossfit"),
    "Q02-unknown-part-in-offer": ("- supplier", f"{_KT_1}- supplier"),
    "Q03-unknown-part-at-place": ("- platform", "- part: KT 1\n  maker: Kestin\n  is: hose\n- platform"),
    "Q04-unknown-category": ("is: botom-hose", "is: bottom-hose"),
    "Q05-unknown-platform": ("kestin-toland", "kestin-tolland"),
    "Q06-job-of-unknown-car": ("for: gren", "for: green"),
    "Q07-place-without-requirement": (
        "safety: none\n",
        "safety: none\n  features:\n    bore: {kind: length, role: mates}\n",
    ),
    "Q08-unknown-part-in-part": ("- part: KT 1", f"{_KT_2}- part: KT 1"),
    "Q10-unknown-place": ("cooling/top-hos,", "cooling/top-hose,"),
    "Q11-replacement-in-a-circle": ("  replaced-by: {number: KT 1, reason: supplier}\n", ""),
    "Q12-contains-itself": ("  contains: [KT 1]\n", ""),
    "Q13-category-in-a-circle": ("  broader: rubber-part\n", ""),
    "Q14-both-ways-unequal": ("  goes: both-ways\n", ""),
    "Q15-claim-against-measure": ("value: 342 mm", "value: 328 mm"),
    "Q16-claim-over-a-trap": ("thread: M12x1.25", "thread: 7/16-20 UNF"),
    "Q17-source-repeated": ("by: a neighbour, source: letter 41", "by: a neighbour, source: letter 57"),
    "Q18-stale-price": ("seen: 2026-10-01", "seen: 2026-11-20"),
    "Q19-no-safety-class": ("- category: hose\n", "- category: hose\n  safety: none\n"),
    "Q20-safety-on-weak-evidence": ("how: told, by: a neighbour", "how: fitted, by: a neighbour"),
    "Q21-fact-outside-platform": ("engine: 2.0i", 'engine: "2.0"'),
    "Q22-number-of-several-makers": ('  use: "100"', "  use: Ostra 100"),
    "Q23-unknown-feature": ("boer: 32 mm", "bore: 32 mm"),
    "Q24-not-a-choice": ("contact: opened", "contact: open"),
    "Q25-weaker-safety": ("  safety: none\n", ""),
    "Q26-unreadable-value": ("M14x1.55", "M14x1.5"),
    "Q27-condition-on-unknown-fact": ("{chasis:", "{chassis:"),
    "Q28-offer-ran-out": ("until: 2026-11-30", "until: 2026-12-03"),
    "Q29-equal-numbers-unlinked": ("- part: 14 70\n", "- part: 14 70\n  same-as: [Ostra 1470]\n"),
    "Q30-part-given-twice": ("- part: KT-1", "- part: KT-2"),
    "Q31-unknown-part-wanted": ("- shared-work", f"{_KT_1}- shared-work"),
    "Q32-unknown-part-in-stores": ("- stores", f"{_KT_1}- stores"),
    "Q33-doubt-about-unknown-part": ("- quality", f"{_KT_1}- quality"),
    "Q34-claim-to-itself": ("- crossfit", f"{_KT_2}- crossfit"),
    "Q35-name-given-twice": ("safety: fuel", "safety: none"),
    "Q36-impossible-size": ("inside: 47 mm", "inside: 17 mm"),
    "Q37-mixed-units": ("bore: 32 in", "bore: 32 mm"),
    "Q38-dated-ahead": ("seen: 2027-11-30", "seen: 2026-11-30"),
    "Q39-name-missing": (
        "names: {en-gb: hose, de: Schlauch}",
        "names: {en-gb: hose, en-us: hose, de: Schlauch, fr: durite, es: manguito}",
    ),
    "Q40-no-interface": ("safety: none\n", "safety: none\n  features: {bore: {kind: length, role: mates}}\n"),
    "Q41-sides-not-said": ("safety: none\n", "safety: none\n  sides: none\n"),
    "Q42-looser-for-safety": ("      no-used: no\n", "      no-used: yes\n"),
    "Q43-policy-of-others": ("friend/policy.yaml", "shop/policy.yaml"),
    "Q44-policy-left-open": ("printed: 75 %}", "printed: 75 %, told: 40 %}"),
    "Q45-no-further-name": ("safety: none\n", "safety: none\n  also: {en-gb: [pipe of rubber]}\n"),
    "Q46-buying-not-said": ("always-new: yes\n", "always-new: yes\n  used: never\n"),
    "Q47-new-against-used": ("used: if-sound", "used: never"),
    "Q48-no-usual-fault": ("clip, minutes", "clip, test: feel it hot, minutes"),
    "Q49-nothing-looked-at-first": ("safety: none\n", "safety: none\n  look-first: bore\n"),
    "Q50-few-features": ("role: looks", "role: works"),
    "Q51-feature-decides-nothing": ("lenght", "length"),
    "Q52-feature-half-said": ("role: joins}", "role: joins, work: {do: trim it, minutes: 5}}"),
    "Q53-feature-loosened": ("tolerance: 2 mm", "tolerance: 0.4 mm"),
    "Q54-too-deep": (
        "- {category: water-hose, broader: hose}",
        "- {category: water-hose, broader: rubber-part}",
    ),
    "Q55-half-not-said": ("role: mates}", "role: mates, end: male}"),
    "Q56-unknown-work": ("coolant-outt", "coolant-out"),
    "Q57-cautions-too-long": (", The fan may start by itself.]", "]"),
    "Q58-promise": ("safe to use again if soft", "soft and not split inside"),
    "Q59-no-source": ("safety: none\n", "safety: none\n  source: common practice\n"),
    "Q60-renewed-with-itself": ("renew-with: [hose]", "renew: across-axle"),
}
"""Code to what is replaced in the smallest failing book, and by what."""

FURTHER: Final[dict[str, tuple[str, str]]] = {
    "Q07-place-without-requirement": ("minutes: 10}", "must-be: {bore: 32 mm}}"),
    "Q34-claim-to-itself": ("  use: KT 1\n", "  use: KT 2\n"),
    "Q35-name-given-twice": (
        "- category: hose\n  safety: none\n# book",
        "- category: clip\n  safety: none\n# book",
    ),
}
"""A second change, where one is not enough."""
