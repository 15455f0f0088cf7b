// How to connect a sensor: address, topic, payload, and a command to try it.

import { h } from '../shared/dom.js';
import { copyText } from '../shared/copy.js';
import { texts } from './texts.js';

const EXAMPLE = '{"temperature":31.2,"humidity":97,"light":0}';
const EXAMPLE_SENSOR = 'jar-1';

export function connectStep(setup) {
  const { hosts = [], port, rootTopic, embedded, anonymous } = setup.mqtt;
  const names = hosts.length > 0 ? hosts : [location.hostname];
  const topic = `${rootTopic}/${EXAMPLE_SENSOR}`;
  const needsAccount = embedded && anonymous !== 'everywhere';
  const line = `mosquitto_pub -h ${needsAccount ? '127.0.0.1' : names[0]} -p ${port} -t ${topic} -m '${EXAMPLE}'`;
  return [
    h('p', {}, texts.letItSendMqttMessages(embedded ? texts.thisService : texts.yourBroker)),
    h(
      'dl',
      { class: 'facts' },
      fact(
        names.length > 1 ? texts.hostAnyOf : texts.host,
        names.map((name) => h('code', {}, name)),
      ),
      fact(texts.port, [h('code', {}, port)]),
      fact(texts.topic, [
        h('span', {}, h('code', {}, `${rootTopic}/`), h('em', {}, texts.sensorName), texts.lettersDigitsAnd),
      ]),
      fact(texts.payload, [h('code', {}, EXAMPLE)]),
    ),
    embedded && accountNote(anonymous),
    h(
      'p',
      { class: 'quiet' },
      texts.temperatureInDegreescHumidity,
      h('a', { href: '/docs/sensors.html' }, texts.whatSensorsSend),
      texts.toTryIt(needsAccount ? texts.onThisMachine : texts.fromAnyComputer),
    ),
    h('div', { class: 'copy' }, h('code', { id: 'publish-line', tabindex: '0' }, line), copyText(line, texts.copy)),
    h('p', { class: 'caution' }, h('strong', {}, texts.cellsAndHeat), texts.keepLithiumCellsOutsideThe),
  ];
}

function accountNote(anonymous) {
  if (anonymous === 'everywhere') return null;
  const who = anonymous === 'never' ? texts.eachSensor : texts.aSensorOnAnotherMachine;
  return h('p', {}, texts.needsAnAccount(who), h('a', { href: '/sensors.html#accounts-part' }, texts.makeOne), '.');
}

function fact(title, values) {
  return h(
    'div',
    {},
    h('dt', {}, title),
    h(
      'dd',
      {},
      values.map((value) => h('span', { class: 'fact' }, value)),
    ),
  );
}
