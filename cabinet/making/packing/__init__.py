"""The search for a cut plan: rectangles on sheets by through cuts, any number of stages.

``solve.plan_cuts`` is the way in. It sets goals (``goal``), which are searched by ruin and
recreate on trees of cuts (``kernel``, compiled by ``speed`` once a job is worth it) and by putting
sheets of many tries together (``recombine``), turned into cuts (``layout``), and held against what
cannot be bettered (``bounds``, ``subsets``). ``strip`` looks for the largest rest.
"""
