// How to connect a sensor: address, topic, payload, and a command to try it.

import { h } from '../shared/dom.js';
import { copyText } from '../shared/copy.js';

const EXAMPLE = '{"temperature":31.2,"humidity":97,"light":0}';
const EXAMPLE_SENSOR = 'jar-1';

export function connectStep(setup) {
  const { hosts = [], port, rootTopic, embedded, anonymous } = setup.mqtt;
  const names = hosts.length > 0 ? hosts : [location.hostname];
  const topic = `${rootTopic}/${EXAMPLE_SENSOR}`;
  const needsAccount = embedded && anonymous !== 'everywhere';
  const line = `mosquitto_pub -h ${needsAccount ? '127.0.0.1' : names[0]} -p ${port} -t ${topic} -m '${EXAMPLE}'`;
  return [
    h('p', {}, `Let it send MQTT messages to ${embedded ? 'this service' : 'your broker'}:`),
    h(
      'dl',
      { class: 'facts' },
      fact(
        names.length > 1 ? 'Host (any of)' : 'Host',
        names.map((name) => h('code', {}, name)),
      ),
      fact('Port', [h('code', {}, port)]),
      fact('Topic', [
        h('span', {}, h('code', {}, `${rootTopic}/`), h('em', {}, 'sensor name'), ' – letters, digits, _ and -'),
      ]),
      fact('Payload', [h('code', {}, EXAMPLE)]),
    ),
    embedded && accountNote(anonymous),
    h(
      'p',
      { class: 'quiet' },
      'Temperature in °C, humidity in %, light in lux; leave out what it does not measure. ',
      h('a', { href: '/docs/sensors.html' }, 'What sensors send'),
      `. To try it ${needsAccount ? 'on this machine' : 'from any computer'}:`,
    ),
    h('div', { class: 'copy' }, h('code', { id: 'publish-line', tabindex: '0' }, line), copyText(line, 'Copy')),
    h(
      'p',
      { class: 'caution' },
      h('strong', {}, 'Cells and heat. '),
      'Keep lithium cells outside the container: heat and water can make them leak, burst or burn. Bring only the probe inside.',
    ),
  ];
}

function accountNote(anonymous) {
  if (anonymous === 'everywhere') return null;
  const who = anonymous === 'never' ? 'Each sensor' : 'A sensor on another machine';
  return h('p', {}, `${who} needs an account: `, h('a', { href: '/sensors.html#accounts-part' }, 'make one'), '.');
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
