/* Runs the node of ../portable on a computer. */
#include <mosquitto.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "desk.h"

uint32_t desk_uptime_s(void *self)
{
    struct desk *desk = self;
    struct timespec now;
    if (desk->options.fast) {
        return desk->fast_s;
    }
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (uint32_t)now.tv_sec;
}

/* The true time that a fast run's own seconds take. */
static uint32_t true_s(const struct desk *desk, uint32_t own_s)
{
    return (uint32_t)((uint64_t)own_s * 100 / (100 - desk->options.slow_percent));
}

static bool read_utc_s(void *self, uint32_t *utc_s)
{
    struct desk *desk = self;
    if (desk->options.no_clock) {
        return false;
    }
    *utc_s = desk->options.fast ? desk->options.start_s + true_s(desk, desk->fast_s) : (uint32_t)time(NULL);
    return true;
}

static void log_line(void *self, const char *line)
{
    printf("%u %s\n", (unsigned)desk_uptime_s(self), line);
    fflush(stdout);
}

static void sleep_s(struct desk *desk, uint32_t seconds)
{
    if (desk->options.fast) {
        desk->fast_s += seconds;
    } else {
        struct timespec pause = {(time_t)seconds, 0};
        nanosleep(&pause, NULL);
    }
}

static void run(struct desk *desk, const struct tp_node *node)
{
    uint32_t run_s = desk->options.run_s;
    desk->began_s = desk_uptime_s(desk);
    tp_node_start(node, desk->options.seed);
    for (;;) {
        uint32_t pause_s = tp_node_wake(node);
        if (run_s > 0 && desk_uptime_s(desk) + pause_s >= desk->began_s + run_s) {
            return;
        }
        sleep_s(desk, pause_s);
    }
}

int main(int count, char **words)
{
    static struct tp_memory memory;
    static char topic[80], payload[2048];
    static struct desk desk;
    desk.options = options_of(count, words);
    desk.random = desk.options.seed;
    if (desk.options.start_s == 0) {
        desk.options.start_s = (uint32_t)time(NULL) - true_s(&desk, desk.options.run_s);
    }
    kept_load(&desk, &memory);
    snprintf(topic, sizeof topic, "tepidarium/%s", desk.options.name);
    const struct tp_settings settings = {
        .topic = topic,
        .measure_every_s = desk.options.every_s,
        .send_every_s = desk.options.send_every_s,
        .retry_first_s = desk.options.retry_first_s,
        .retry_max_s = desk.options.retry_max_s,
        .readings_a_batch = 20,
        .battery = &tp_lithium_cell,
    };
    const struct tp_board board = {
        .self = &desk,
        .uptime_s = desk_uptime_s,
        .read_sht3x = desk.options.probe ? NULL : chips_read_sht3x,
        .read_bh1750 = desk.options.probe ? NULL : chips_read_bh1750,
        .read_ds18b20 = desk.options.probe ? chips_read_ds18b20 : NULL,
        .read_battery_mv = chips_read_battery_mv,
        .connect = link_connect,
        .read_utc_s = read_utc_s,
        .publish = link_publish,
        .disconnect = link_disconnect,
        .save = kept_save,
        .log = log_line,
    };
    const struct tp_node node = {&settings, &board, &memory, payload, sizeof payload};
    signal(SIGPIPE, SIG_IGN);
    mosquitto_lib_init();
    run(&desk, &node);
    mosquitto_lib_cleanup();
    return 0;
}
