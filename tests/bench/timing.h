/* timing.h - repeated measurements: the middle one and both ends. */
#ifndef BELL_BENCH_TIMING_H
#define BELL_BENCH_TIMING_H

/* Milliseconds of processor time this process has taken. */
double timing_now(void);

/* Milliseconds that WORK(WITH) takes, RUNS times. */
struct timing {
    double median, least, most;
};
enum { TIMING_MOST_RUNS = 101 };
typedef void timing_work(void *with);
struct timing timing_of(timing_work *work, void *with, int runs);

/* The same where the times were taken elsewhere; sorts them. */
struct timing timing_sum(double *times, int runs);

/* `  12.34  (11.98-13.02)` */
void timing_print(struct timing timing);

#endif
