/* The outer limit of a search through all pairs of states: nothing but the recurrence, which compilers make into vector instructions.
   Reads from standard input whole numbers of 32 bits: how many steps there are, how many states the first event has; then for each step the
   states it comes to, 1 where nothing before it counts, and its matrix, a row for each state left. Prints the milliseconds of
   processor time of the quickest of several rounds and the cost of the best path. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#define NEVER (1 << 29)
#define MOST 4096

static int next(void) { int one; if (fread(&one, sizeof one, 1, stdin) != 1) exit(1); return one; }

static void step(const int *restrict before, int rows, const int *restrict matrix, int *restrict after, int *restrict came, int size) {
  for (int j = 0; j < size; j++) after[j] = NEVER;
  for (int i = 0; i < rows; i++) {
    const int sofar = before[i], *row = matrix + (size_t)i * size;
    for (int j = 0; j < size; j++) {
      const int cost = sofar + row[j];
      came[j] = cost < after[j] ? i : came[j];
      after[j] = cost < after[j] ? cost : after[j];
    }
  }
}

int main(void) {
  const int steps = next(), first = next();
  int *sizes = malloc(steps * sizeof *sizes), *fresh = malloc(steps * sizeof *fresh), **matrices = malloc(steps * sizeof *matrices);
  int **came = malloc(steps * sizeof *came), rows = first;
  for (int s = 0; s < steps; s++) {
    sizes[s] = next();
    fresh[s] = next();
    const size_t count = (size_t)(fresh[s] ? 1 : rows) * sizes[s];
    matrices[s] = malloc(count * sizeof(int) + 1);
    came[s] = malloc(sizes[s] * sizeof(int) + 1);
    if (fread(matrices[s], sizeof(int), count, stdin) != count || sizes[s] > MOST) exit(1);
    rows = sizes[s];
  }
  int *start = malloc(first * sizeof *start + 1);
  if (fread(start, sizeof(int), first, stdin) != (size_t)first) exit(1);
  double quickest = 1e9;
  long total = 0;
  for (int round = 0; round < 50; round++) {
    static int room[2][MOST];
    struct timespec begun, done;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &begun);
    const int *before = start;
    int count = first;
    total = 0;
    for (int s = 0; s < steps; s++) {
      int *after = room[s & 1], least = NEVER;
      if (fresh[s]) for (int j = 0; j < sizes[s]; j++) after[j] = matrices[s][j];
      else step(before, count, matrices[s], after, came[s], sizes[s]);
      for (int j = 0; j < sizes[s]; j++) least = after[j] < least ? after[j] : least;
      for (int j = 0; j < sizes[s]; j++) after[j] -= after[j] < NEVER ? least : 0;
      total += sizes[s] > 0 ? least : 0;
      before = after;
      count = sizes[s];
    }
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &done);
    const double took = (done.tv_sec - begun.tv_sec) * 1e3 + (done.tv_nsec - begun.tv_nsec) / 1e6;
    if (took < quickest) quickest = took;
  }
  printf("%f %ld\n", quickest, total);
  return 0;
}
