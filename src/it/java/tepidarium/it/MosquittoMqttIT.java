package tepidarium.it;

/** A broker that we did not write. */
class MosquittoMqttIT extends MqttContract {
  MosquittoMqttIT() {
    super(BrokerKind.MOSQUITTO);
  }
}
