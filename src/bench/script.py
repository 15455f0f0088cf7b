"""What a hobbyist would write: subscribe, and insert every reading as a row of its own.

script.py PORT FILE COUNT ends after so many rows. It is measured against the service.
"""

import json
import sqlite3
import sys

import paho.mqtt.client as mqtt

port, file, count = int(sys.argv[1]), sys.argv[2], int(sys.argv[3])
database = sqlite3.connect(file)
database.execute(
    "CREATE TABLE reading (sensor TEXT, at TEXT, temperature REAL, humidity REAL, light REAL,"
    " battery REAL, PRIMARY KEY (sensor, at))"
)
rows = 0


def on_message(client, userdata, message):
    global rows
    reading = json.loads(message.payload)
    database.execute(
        "INSERT INTO reading VALUES (?, ?, ?, ?, ?, ?)",
        (
            message.topic.split("/")[1],
            reading["at"],
            reading["temperature"],
            reading["humidity"],
            reading["light"],
            reading["battery"],
        ),
    )
    database.commit()
    rows += 1
    if rows == count:
        client.disconnect()


def on_subscribe(client, userdata, mid, granted_qos):
    print("ready", flush=True)


client = mqtt.Client("hobby", clean_session=False)
client.on_message = on_message
client.on_subscribe = on_subscribe
client.connect("127.0.0.1", port)
client.subscribe("tepidarium/#", 1)
client.loop_forever()
print("done", flush=True)
