/* Connects to the broker and publishes, with libmosquitto. One connection for each attempt to send. */
#include <mosquitto.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "desk.h"

enum { KEEP_ALIVE_S = 60, STEP_MS = 100 };

static bool is_cut(struct desk *desk)
{
    uint32_t now_s = desk_uptime_s(desk) - desk->began_s;
    for (int i = 0; i < desk->options.cuts; i++) {
        uint32_t from_s = desk->options.cut[i].from_s;
        if (now_s >= from_s && now_s - from_s < desk->options.cut[i].length_s) {
            return true;
        }
    }
    return false;
}

static void on_connect(struct mosquitto *client, void *self, int code)
{
    (void)client;
    ((struct desk *)self)->connected = code;
}

static void on_publish(struct mosquitto *client, void *self, int id)
{
    (void)client;
    ((struct desk *)self)->acknowledged = id;
}

static int64_t real_ms(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

/* Lets the client work until the broker's answer is there, the connection ends, or it takes too long. */
static bool await(struct desk *desk, const int *answer, int wanted)
{
    int64_t end_ms = real_ms() + desk->options.answer_ms;
    while (*answer != wanted) {
        if (real_ms() >= end_ms || mosquitto_loop(desk->client, STEP_MS, 1) != MOSQ_ERR_SUCCESS) {
            return false;
        }
    }
    return true;
}

bool link_connect(void *self)
{
    struct desk *desk = self;
    if (is_cut(desk)) {
        return false;
    }
    desk->client = mosquitto_new(desk->options.name, true, desk);
    if (!desk->client) {
        return false;
    }
    mosquitto_connect_callback_set(desk->client, on_connect);
    mosquitto_publish_callback_set(desk->client, on_publish);
    if (desk->options.user) {
        mosquitto_username_pw_set(desk->client, desk->options.user, desk->options.password);
    }
    desk->connected = -1;
    return mosquitto_connect(desk->client, desk->options.host, desk->options.port, KEEP_ALIVE_S) ==
               MOSQ_ERR_SUCCESS &&
           await(desk, &desk->connected, 0);
}

bool link_publish(void *self, const char *topic, const char *payload)
{
    struct desk *desk = self;
    int id = 0;
    desk->acknowledged = -1;
    return !is_cut(desk) &&
           mosquitto_publish(desk->client, &id, topic, (int)strlen(payload), payload, 1, false) ==
               MOSQ_ERR_SUCCESS &&
           await(desk, &desk->acknowledged, id);
}

void link_disconnect(void *self)
{
    struct desk *desk = self;
    if (desk->client) {
        mosquitto_disconnect(desk->client);
        mosquitto_destroy(desk->client);
        desk->client = NULL;
    }
}
