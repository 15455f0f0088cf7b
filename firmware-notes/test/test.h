/* Checks for the tests of the portable part. A failed check prints its place and fails its test. */
#ifndef TEST_H
#define TEST_H

#include <stdbool.h>
#include <stdint.h>

void test_check(bool good, const char *file, int line, const char *words);
void test_equal(int64_t expected, int64_t actual, const char *file, int line, const char *words);
void test_text(const char *expected, const char *actual, const char *file, int line);

#define CHECK(condition) test_check((condition), __FILE__, __LINE__, #condition)
#define EQUAL(expected, actual) test_equal((expected), (actual), __FILE__, __LINE__, #actual)
#define TEXT(expected, actual) test_text((expected), (actual), __FILE__, __LINE__)

/* Runs one test and counts it. */
void test_run(const char *name, void (*test)(void));
#define RUN(test) test_run(#test, test)

void chips_tests(void);
void parts_tests(void);
void memory_tests(void);
void node_tests(void);

#endif
