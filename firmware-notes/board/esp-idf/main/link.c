/*
 * Joins the Wi-Fi network, asks for the time, publishes with esp-mqtt. NOT COMPILED HERE, NOT RUN ON
 * HARDWARE. The events come from other tasks; an event group tells this one.
 */
#include <string.h>
#include <time.h>

#include "esp_event.h"
#include "esp_netif.h"
#include "esp_netif_sntp.h"
#include "esp_wifi.h"
#include "freertos/FreeRTOS.h"
#include "freertos/event_groups.h"
#include "mqtt_client.h"

#include "esp_board.h"
#include "settings.h"

enum { HAS_ADDRESS = 1, CONNECTED = 2, ACKNOWLEDGED = 4, FAILED = 8, LIMIT_MS = 10000, SNTP_LIMIT_MS = 5000 };

static EventGroupHandle_t events;
static esp_mqtt_client_handle_t client;
static bool wifi_started;

/* Waits for an event; false when the connection failed or after the limit. */
static bool await(EventBits_t wanted)
{
    EventBits_t bits = xEventGroupWaitBits(events, wanted | FAILED, pdFALSE, pdFALSE, pdMS_TO_TICKS(LIMIT_MS));
    return (bits & wanted) && !(bits & FAILED);
}

static void on_address(void *arg, esp_event_base_t base, int32_t id, void *data)
{
    (void)arg, (void)base, (void)id, (void)data;
    xEventGroupSetBits(events, HAS_ADDRESS);
}

static void on_wifi_lost(void *arg, esp_event_base_t base, int32_t id, void *data)
{
    (void)arg, (void)base, (void)id, (void)data;
    xEventGroupSetBits(events, FAILED);
}

static void on_mqtt(void *arg, esp_event_base_t base, int32_t id, void *data)
{
    (void)arg, (void)base, (void)data;
    if (id == MQTT_EVENT_CONNECTED) {
        xEventGroupSetBits(events, CONNECTED);
    } else if (id == MQTT_EVENT_PUBLISHED) { /* the broker's PUBACK: one message is under way at a time */
        xEventGroupSetBits(events, ACKNOWLEDGED);
    } else if (id == MQTT_EVENT_DISCONNECTED || id == MQTT_EVENT_ERROR) {
        xEventGroupSetBits(events, FAILED);
    }
}

static bool join_network(void)
{
    const wifi_init_config_t defaults = WIFI_INIT_CONFIG_DEFAULT();
    wifi_config_t network = {.sta = {.ssid = WIFI_NAME, .password = WIFI_PASSWORD}};
    events = xEventGroupCreate();
    esp_netif_init();
    esp_event_loop_create_default();
    esp_netif_create_default_wifi_sta();
    if (!events || esp_wifi_init(&defaults) != ESP_OK) {
        return false;
    }
    wifi_started = true;
    esp_event_handler_register(IP_EVENT, IP_EVENT_STA_GOT_IP, on_address, NULL);
    esp_event_handler_register(WIFI_EVENT, WIFI_EVENT_STA_DISCONNECTED, on_wifi_lost, NULL);
    return esp_wifi_set_mode(WIFI_MODE_STA) == ESP_OK && esp_wifi_set_config(WIFI_IF_STA, &network) == ESP_OK &&
           esp_wifi_start() == ESP_OK && esp_wifi_connect() == ESP_OK && await(HAS_ADDRESS);
}

bool link_connect(void *self)
{
    const esp_mqtt_client_config_t config = {
        .broker.address.uri = BROKER,
        .broker.verification.certificate = sizeof BROKER_CA > 1 ? BROKER_CA : NULL,
        .credentials.client_id = SENSOR,
        .credentials.username = sizeof BROKER_USER > 1 ? BROKER_USER : NULL,
        .credentials.authentication.password = sizeof BROKER_USER > 1 ? BROKER_PASSWORD : NULL,
        .network.disable_auto_reconnect = true, /* the node repeats, from its own memory */
        .network.timeout_ms = LIMIT_MS,
    };
    (void)self;
    if (!join_network()) {
        return false;
    }
    client = esp_mqtt_client_init(&config);
    return client && esp_mqtt_client_register_event(client, ESP_EVENT_ANY_ID, on_mqtt, NULL) == ESP_OK &&
           esp_mqtt_client_start(client) == ESP_OK && await(CONNECTED);
}

/* SNTP sets the system's time. The node's uptime is another clock, and does not jump. */
bool link_read_utc_s(void *self, uint32_t *utc_s)
{
    const esp_sntp_config_t config = ESP_NETIF_SNTP_DEFAULT_CONFIG(TIME_SERVER);
    (void)self;
    bool good = esp_netif_sntp_init(&config) == ESP_OK &&
                esp_netif_sntp_sync_wait(pdMS_TO_TICKS(SNTP_LIMIT_MS)) == ESP_OK;
    *utc_s = (uint32_t)time(NULL);
    esp_netif_sntp_deinit();
    return good;
}

bool link_publish(void *self, const char *topic, const char *payload)
{
    (void)self;
    xEventGroupClearBits(events, ACKNOWLEDGED);
    return esp_mqtt_client_publish(client, topic, payload, (int)strlen(payload), 1, 0) > 0 && await(ACKNOWLEDGED);
}

/* The node sleeps deeply afterwards, which ends everything else. */
void link_disconnect(void *self)
{
    (void)self;
    if (client) {
        esp_mqtt_client_disconnect(client);
        esp_mqtt_client_destroy(client);
        client = NULL;
    }
    if (wifi_started) {
        esp_wifi_stop();
        wifi_started = false;
    }
}
