#include <stdio.h>
#include <string.h>

#include "test.h"

static int passed, failed;
static bool failing;

static void fail(const char *file, int line)
{
    failing = true;
    printf("%s:%d: ", file, line);
}

void test_check(bool good, const char *file, int line, const char *words)
{
    if (!good) {
        fail(file, line);
        printf("not true: %s\n", words);
    }
}

void test_equal(int64_t expected, int64_t actual, const char *file, int line, const char *words)
{
    if (expected != actual) {
        fail(file, line);
        printf("%s is %lld, expected %lld\n", words, (long long)actual, (long long)expected);
    }
}

void test_text(const char *expected, const char *actual, const char *file, int line)
{
    if (strcmp(expected, actual) != 0) {
        fail(file, line);
        printf("\"%s\"\n  expected \"%s\"\n", actual, expected);
    }
}

void test_run(const char *name, void (*test)(void))
{
    failing = false;
    test();
    if (failing) {
        printf("failed: %s\n", name);
        failed++;
    } else {
        passed++;
    }
}

int main(void)
{
    chips_tests();
    parts_tests();
    memory_tests();
    node_tests();
    printf("%d passed, %d failed\n", passed, failed);
    return failed == 0 ? 0 : 1;
}
