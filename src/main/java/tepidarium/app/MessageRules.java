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
record MessageRules(Decoder decoder, HeardMessages heard, SensorLimit sensorLimit) {

  static MessageRules of(Config config) {
    Config.MqttLimits limits = config.mqttLimits();
    return new MessageRules(
        new Decoder(config.rootTopic(), config.mappings(), config.maxPayloadBytes()),
        new HeardMessages(),
        new SensorLimit(limits.maxSensors(), limits.newSensorsPerHour()));
  }
}
