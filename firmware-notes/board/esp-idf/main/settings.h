/* What you set for your own node. NOT COMPILED HERE, NOT RUN ON HARDWARE. */
#ifndef SETTINGS_H
#define SETTINGS_H

#define SENSOR "jar-1" /* 1 to 64 of A-Z a-z 0-9 _ -; also the MQTT client id: its own for each node */
#define TOPIC "tepidarium/jar-1"
#define WIFI_NAME ""
#define WIFI_PASSWORD ""
/* The page Sensors of the service makes the account, and shows these lines for it once. */
#define BROKER "mqtt://192.0.2.10:1883"
#define BROKER_USER "" /* no account: empty */
#define BROKER_PASSWORD ""
#define BROKER_CA "" /* with mqtts://, the certificate to check the broker by, in PEM */
#define TIME_SERVER "pool.ntp.org" /* or your router */

#define MEASURE_EVERY_S 300
#define SEND_EVERY_S 900

/* Which chips are fitted: 1 or 0. */
#define HAS_SHT3X 1
#define HAS_BH1750 1
#define HAS_DS18B20 0
#define HAS_BATTERY 1

#define PIN_SDA 21
#define PIN_SCL 22
#define PIN_DS18B20 4
#define PIN_LED 2 /* the board's own light, switched off */

/* The battery's divider is at this channel of ADC 1; channel 6 is GPIO34 on an ESP32. */
#define BATTERY_CHANNEL ADC_CHANNEL_6
#define BATTERY_UPPER_OHM 470000
#define BATTERY_LOWER_OHM 470000
/* Three alkaline cells; for one lithium cell 3300 and tp_lithium_cell. */
#define BATTERY_EMPTY_MV 3000
#define BATTERY_CURVE tp_three_alkaline

#endif
