// The floor: the least work that any direct solver of a ladder does, on an assembled symmetric tridiagonal matrix.

/** Factor and solve in one sweep: diagonal `diag`, off-diagonal −`off`, right side `rhs`; `ratio` is work space. */
export function thomas(diag, off, rhs, ratio, x) {
  const n = diag.length;
  let c = 0;
  let y = 0;
  let g = 0;
  for (let i = 0; i < n; i++) {
    const m = 1 / (diag[i] - g * c);
    y = (rhs[i] + g * y) * m;
    g = off[i];
    c = g * m;
    ratio[i] = c;
    x[i] = y;
  }
  for (let i = n - 2; i >= 0; i--) {
    y = x[i] + ratio[i] * y;
    x[i] = y;
  }
}

/** The numeric part alone: what a second right side needs. */
export function thomasFactor(diag, off, ratio, pivot) {
  let c = 0;
  let g = 0;
  for (let i = 0; i < diag.length; i++) {
    const m = 1 / (diag[i] - g * c);
    g = off[i];
    c = g * m;
    ratio[i] = c;
    pivot[i] = m;
  }
}

/** The forward and back pass of a factored matrix for one right side. */
export function thomasSolve(ratio, pivot, rhs, x) {
  const n = ratio.length;
  let y = 0;
  let c = 0;
  for (let i = 0; i < n; i++) {
    y = rhs[i] + c * y;
    c = ratio[i];
    x[i] = y;
  }
  y = x[n - 1] * pivot[n - 1];
  x[n - 1] = y;
  for (let i = n - 2; i >= 0; i--) {
    y = x[i] * pivot[i] + ratio[i] * y;
    x[i] = y;
  }
}
