/* The command line of the sensor for the desk. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "desk.h"

static const char help[] =
    "A sensor on your desk: simulated chips, real MQTT.\n"
    "\n"
    "  --host HOST          broker (127.0.0.1)\n"
    "  --port PORT          its port (1883)\n"
    "  --user NAME          account at the broker (none)\n"
    "  --password WORD      its password\n"
    "  --name SENSOR        name of the sensor, in topic and client id (desk-1)\n"
    "  --every S            seconds between readings (60)\n"
    "  --send-every S       seconds between messages (60)\n"
    "  --retry-first S      delay after the first failure to send; doubles (60)\n"
    "  --retry-max S        longest such delay (1800)\n"
    "  --answer MS          how long to wait for the broker's answer (10000)\n"
    "  --probe              a DS18B20 in place of SHT3x and BH1750\n"
    "  --bad-checksums PCT  share of disturbed bytes from the chips (0)\n"
    "  --cut FROM+LENGTH    no network for LENGTH seconds, FROM seconds after the start; may be repeated\n"
    "  --memory FILE        keeps the waiting readings over a restart (none)\n"
    "  --for S              ends after S seconds (never)\n"
    "  --fast               does not wait: the clock jumps. Needs --for; ends at the present time\n"
    "  --start S            UTC at the start of a fast run, in seconds since 1970\n"
    "  --no-clock           no time server answers: readings carry their age\n"
    "  --slow PCT           the node's clock is slow by this share in a fast run (0)\n"
    "  --seed N             of the simulated values and delays (1)\n";

static void fail(const char *word, const char *problem)
{
    fprintf(stderr, "desk: %s %s. --help lists the options.\n", word, problem);
    exit(2);
}

static uint32_t number(const char *option, const char *word, uint32_t least, uint32_t most)
{
    char *end;
    unsigned long value = strtoul(word, &end, 10);
    if (*word < '0' || *word > '9' || *end != '\0' || value < least || value > most) {
        fprintf(stderr, "desk: %s must be a whole number from %u to %u, not %s\n", option, least, most, word);
        exit(2);
    }
    return (uint32_t)value;
}

static void add_cut(struct options *options, const char *word)
{
    char *plus, *end;
    unsigned long from_s = strtoul(word, &plus, 10);
    unsigned long length_s = *plus == '+' ? strtoul(plus + 1, &end, 10) : 0;
    if (*plus != '+' || *end != '\0' || length_s == 0 || options->cuts == MOST_CUTS) {
        fail("--cut", "must be FROM+LENGTH, such as 60+120, at most 100 times");
    }
    options->cut[options->cuts].from_s = (uint32_t)from_s;
    options->cut[options->cuts].length_s = (uint32_t)length_s;
    options->cuts++;
}

static bool take_flag(struct options *options, const char *option)
{
    if (strcmp(option, "--help") == 0) {
        fputs(help, stdout);
        exit(0);
    }
    if (strcmp(option, "--fast") == 0) {
        options->fast = true;
    } else if (strcmp(option, "--no-clock") == 0) {
        options->no_clock = true;
    } else if (strcmp(option, "--probe") == 0) {
        options->probe = true;
    } else {
        return false;
    }
    return true;
}

static bool take_text(struct options *options, const char *option, const char *value)
{
    const struct {
        const char *option, **target;
    } texts[] = {
        {"--host", &options->host}, {"--user", &options->user}, {"--password", &options->password},
        {"--name", &options->name}, {"--memory", &options->memory},
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        if (strcmp(option, texts[i].option) == 0) {
            *texts[i].target = value;
            return true;
        }
    }
    return false;
}

static bool take_number(struct options *options, const char *option, const char *value)
{
    const uint32_t year_s = 365u * 86400u;
    const struct {
        const char *option;
        uint32_t *target, least, most;
    } numbers[] = {
        {"--every", &options->every_s, 1, 86400},
        {"--send-every", &options->send_every_s, 1, 86400},
        {"--retry-first", &options->retry_first_s, 1, 86400},
        {"--retry-max", &options->retry_max_s, 1, 86400},
        {"--answer", &options->answer_ms, 100, 60000},
        {"--bad-checksums", &options->bad_percent, 0, 100},
        {"--slow", &options->slow_percent, 0, 9},
        {"--for", &options->run_s, 1, year_s},
        {"--start", &options->start_s, TP_EARLIEST_UTC_S, UINT32_MAX - year_s},
        {"--seed", &options->seed, 0, UINT32_MAX},
    };
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        if (strcmp(option, numbers[i].option) == 0) {
            *numbers[i].target = number(option, value, numbers[i].least, numbers[i].most);
            return true;
        }
    }
    return false;
}

static void take(struct options *options, const char *option, const char *value)
{
    if (strcmp(option, "--cut") == 0) {
        add_cut(options, value);
    } else if (strcmp(option, "--port") == 0) {
        options->port = (int)number(option, value, 1, 65535);
    } else if (!take_text(options, option, value) && !take_number(options, option, value)) {
        fail(option, "is not an option");
    }
}

/* The service's rule for names (src/docs/sensors.md). */
static bool is_name(const char *name)
{
    size_t length = strlen(name);
    return length >= 1 && length <= 64 &&
           strspn(name, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-") == length;
}

struct options options_of(int count, char **words)
{
    struct options options = {.host = "127.0.0.1", .name = "desk-1", .port = 1883, .every_s = 60, .send_every_s = 60,
                              .retry_first_s = 60, .retry_max_s = 1800, .answer_ms = 10000, .seed = 1};
    for (int i = 1; i < count; i++) {
        if (take_flag(&options, words[i])) {
            continue;
        }
        if (i + 1 == count) {
            fail(words[i], "is not an option, or its value is missing");
        }
        take(&options, words[i], words[i + 1]);
        i++;
    }
    if (!is_name(options.name)) {
        fail("--name", "must be 1 to 64 of A-Z a-z 0-9 _ -");
    }
    if (options.fast && options.run_s == 0) {
        fail("--fast", "needs --for");
    }
    return options;
}
