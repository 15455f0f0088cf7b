package tepidarium.app;

import tepidarium.ingest.Decoder;
import tepidarium.ingest.HeardMessages;
import tepidarium.ingest.SensorLimit;

/**
 * What the embedded broker and the intake both ask about a message.
 *
 * @param decoder reads sensor and values from topic and payload
 * @param heard the newest messages of which something was rejected
 * @param sensorLimit the limit on new names of sensors
 */
record MessageReading(Decoder decoder, HeardMessages heard, SensorLimit sensorLimit) {

  static MessageReading of(Config config) {
    Config.MqttLimits limits = config.mqttLimits();
    return new MessageReading(
        new Decoder(config.rootTopic(), config.mappings(), config.maxPayloadBytes()),
        new HeardMessages(),
        new SensorLimit(limits.maxSensors(), limits.newSensorsPerHour()));
  }
}
