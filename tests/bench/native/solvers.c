/*
 * Times two sparse direct solvers written in C on one matrix: KLU, the LU of circuit simulators (T. A. Davis and
 * E. Palamadai Natarajan 2010), and CHOLMOD, a Cholesky factorisation (Y. Chen, T. A. Davis and others 2008).
 *
 *   solvers MATRIX REPEATS SOLUTIONS
 *
 * MATRIX is binary: two 32-bit counts n and nonzeros, then n + 1 column starts, row numbers, values and the right side,
 * the lower and the upper triangle alike. SOLUTIONS gets the two solutions, n doubles each. Prints milliseconds, the best
 * of the repeats, as JSON.
 */
#include <cholmod.h>
#include <klu.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return 1e3 * t.tv_sec + 1e-6 * t.tv_nsec;
}

static void least(double *best, double since) {
  const double took = now() - since;
  if (*best < 0 || took < *best) *best = took;
}

static void *get(FILE *file, size_t count, size_t size) {
  void *data = malloc(count * size);
  if (data == NULL || fread(data, size, count, file) != count) exit(2);
  return data;
}

int main(int argc, char **argv) {
  if (argc != 4) return 2;
  FILE *file = fopen(argv[1], "rb");
  if (file == NULL) return 2;
  int counts[2];
  if (fread(counts, sizeof(int), 2, file) != 2) return 2;
  const int n = counts[0], nonzeros = counts[1], repeats = atoi(argv[2]);
  int *start = get(file, n + 1, sizeof(int)), *row = get(file, nonzeros, sizeof(int));
  double *value = get(file, nonzeros, sizeof(double)), *right = get(file, n, sizeof(double));
  fclose(file);
  FILE *out = fopen(argv[3], "wb");
  double *x = malloc(n * sizeof(double));

  klu_common klu;
  klu_defaults(&klu);
  double symbolic = -1, numeric = -1, solve = -1;
  for (int i = 0; i < repeats; i++) {
    double since = now();
    klu_symbolic *order = klu_analyze(n, start, row, &klu);
    least(&symbolic, since);
    klu_numeric *factor = klu_factor(start, row, value, order, &klu);
    since = now();
    /* New values on a known graph with known pivots: the fastest way that KLU has. */
    if (!klu_refactor(start, row, value, order, factor, &klu)) return 3;
    least(&numeric, since);
    memcpy(x, right, n * sizeof(double));
    since = now();
    klu_solve(order, factor, n, 1, x, &klu);
    least(&solve, since);
    klu_free_numeric(&factor, &klu);
    klu_free_symbolic(&order, &klu);
  }
  fwrite(x, sizeof(double), n, out);
  printf("{\"klu\":{\"symbolic\":%g,\"numeric\":%g,\"solve\":%g},", symbolic, numeric, solve);

  cholmod_common cholmod;
  cholmod_start(&cholmod);
  int lower = 0;
  for (int j = 0; j < n; j++)
    for (int p = start[j]; p < start[j + 1]; p++) lower += row[p] >= j;
  cholmod_sparse *matrix = cholmod_allocate_sparse(n, n, lower, 1, 1, -1, CHOLMOD_REAL, &cholmod);
  int *at = matrix->p, *rows = matrix->i, k = 0;
  for (int j = 0; j < n; j++) {
    at[j] = k;
    for (int p = start[j]; p < start[j + 1]; p++) {
      if (row[p] < j) continue;
      rows[k] = row[p];
      ((double *)matrix->x)[k++] = value[p];
    }
  }
  at[n] = k;
  cholmod_dense *b = cholmod_allocate_dense(n, 1, n, CHOLMOD_REAL, &cholmod), *found = NULL;
  memcpy(b->x, right, n * sizeof(double));
  symbolic = numeric = solve = -1;
  for (int i = 0; i < repeats; i++) {
    double since = now();
    cholmod_factor *factor = cholmod_analyze(matrix, &cholmod);
    least(&symbolic, since);
    since = now();
    cholmod_factorize(matrix, factor, &cholmod);
    least(&numeric, since);
    cholmod_free_dense(&found, &cholmod);
    since = now();
    found = cholmod_solve(CHOLMOD_A, factor, b, &cholmod);
    least(&solve, since);
    cholmod_free_factor(&factor, &cholmod);
  }
  fwrite(found->x, sizeof(double), n, out);
  fclose(out);
  printf("\"cholmod\":{\"symbolic\":%g,\"numeric\":%g,\"solve\":%g}}\n", symbolic, numeric, solve);
  return 0;
}
