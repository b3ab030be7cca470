"""How much further wood sags under a load that stays.

Two rules are known and their results stand side by side: the timber code's, u_fin = u_inst
(1 + psi k_def), and the handbook's rough doubling. Which one a figure uses is always said.
"""

from __future__ import annotations

from cabinet.site.ranges import Between
from cabinet.site.service import Duration, Kind, ServiceClass

# k_def by service class 1, 2, 3 (EN 1995-1-1 Table 3.2, read in a public transcription).
_KDEF = {
    Kind.SOLID: (0.60, 0.80, 2.00),
    Kind.PLYWOOD: (0.80, 1.00, 2.50),
}
# After several years creep may about equal the first deflection (USDA Wood Handbook GTR-282,
# ch. 5, as quoted in a note).
HANDBOOK_FACTOR = 2.0
# Share of a load that lies there always: what is stored stays; a medium-term load is there for
# 0.3 of the time (EN 1990 psi_2 of rooms, from memory), a short one does not count.
_LASTING = {
    Duration.PERMANENT: 1.0,
    Duration.LONG: 1.0,
    Duration.MEDIUM: 0.3,
    Duration.SHORT: 0.0,
    Duration.INSTANTANEOUS: 0.0,
}

RULE = "lasting sag: EN 1995-1-1, 1 + k_def, and for the upper end at least the Wood Handbook's 2.0"


def kdef(kind: Kind, service: ServiceClass) -> float:
    """Deformation factor k_def; metal does not creep.

    Source: EN 1995-1-1 Table 3.2.
    """
    if kind is Kind.METAL:
        return 0.0
    return _KDEF[kind][service.value - 1]


def creep_factor(kind: Kind, service: ServiceClass, duration: Duration) -> Between:
    """Final deflection divided by the first: the code's value, and the handbook's if greater.

    Args:
        kind: What the material is.
        service: How damp the air is.
        duration: How long the load lies.

    Source: EN 1995-1-1, equations 2.2 to 2.4 and Table 3.2; USDA Wood Handbook ch. 5.
    """
    lasting = _LASTING[duration]
    code = 1 + lasting * kdef(kind, service)
    if kind is Kind.METAL:
        return Between(code, code, code)
    handbook = 1 + lasting * (HANDBOOK_FACTOR - 1)
    return Between(min(code, handbook), code, max(code, handbook))
