package tepidarium.it;

/** The broker inside the service. */
class EmbeddedMqttIT extends MqttContract {
  EmbeddedMqttIT() {
    super(BrokerKind.EMBEDDED);
  }
}
