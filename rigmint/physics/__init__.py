"""Physics: plain numbers in, plain numbers out. Knows nothing of rigs, files or graphs.

Everything is in SI units. The matrices here are small (tens to hundreds of rows): a pool of BLAS threads gains
nothing on them and costs the second core to whoever runs two checks at once. The limit counts only if it is set
before numpy is first imported, so it is set here, where numpy is first needed; a user's own setting wins.
"""

import os

for _variable in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(_variable, "1")
