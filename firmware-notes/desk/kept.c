/* Keeps the node's memory in a file between two runs, as RTC memory keeps it between two wakes. */
#include <stdio.h>
#include <stdlib.h>

#include "desk.h"

struct file {
    uint32_t start_s, fast_s; /* clock of a fast run */
    struct tp_memory memory;
};

/* Without a file the memory holds garbage, as after power-on. */
void kept_load(struct desk *desk, struct tp_memory *memory)
{
    static struct file file;
    FILE *in = desk->options.memory ? fopen(desk->options.memory, "rb") : NULL;
    if (in && fread(&file, sizeof file, 1, in) == 1 && desk->options.fast) {
        desk->options.start_s = file.start_s;
        desk->fast_s = file.fast_s;
    }
    if (in) {
        fclose(in);
    }
    *memory = file.memory;
}

/* Writes a second file and renames it: a program killed meanwhile leaves the older state whole. */
void kept_save(void *self, const struct tp_memory *memory)
{
    static struct file file;
    struct desk *desk = self;
    if (!desk->options.memory) {
        return;
    }
    file.start_s = desk->options.start_s;
    file.fast_s = desk->fast_s;
    file.memory = *memory;
    char next[1024];
    int length = snprintf(next, sizeof next, "%s.next", desk->options.memory);
    FILE *out = length < (int)sizeof next ? fopen(next, "wb") : NULL;
    if (!out || fwrite(&file, sizeof file, 1, out) != 1 || fclose(out) != 0 ||
        rename(next, desk->options.memory) != 0) {
        perror(desk->options.memory);
        exit(1);
    }
}
