// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    mappingRules: 'Zuordnungsregeln',
    notUnderstood: '← Nicht verstanden',
    aRuleReadsTheMessages:
      'Eine Regel liest die Nachrichten von Geräten mit eigenem Format. <a href="/docs/sensors.html#devices-with-a-format-of-their-own">Mehr</a>',
    askingTheService: 'Der Dienst wird gefragt …',
    message: 'Nachricht',
    noMessageIsWaitingFor:
      'Keine Nachricht wartet auf eine Regel. Das Gerät senden lassen, dann hier wieder nachsehen.',
    topic: 'Topic',
    chooseTheLevelThatNames: 'Die Ebene wählen, die den Sensor nennt. <em>Beliebig</em> nimmt jeden Namen an.',
    fields: 'Felder',
    tapAValueThenChoose: 'Einen Wert antippen, dann wählen, was er ist.',
    reading: 'Messwert',
    saveRule: 'Regel speichern',
    rules: 'Regeln',
    thereIsNoRuleYet: 'Es gibt noch keine Regel.',
  },

  // choice.js
  time: 'Zeit',
  bytes: 'Bytes',
  order: 'Reihenfolge',
  highByteFirst: 'Höheres Byte zuerst',
  lowByteFirst: 'Niederes Byte zuerst',
  sign: 'Vorzeichen',
  neverNegative: 'Nie negativ',
  canBeNegative: 'Kann negativ sein',
  fromByte: (index) => `Ab Byte ${index}`,
  quantity: 'Messgröße',
  unit: 'Einheit',
  times: 'Mal',
  plus: 'Plus',
  use: 'Verwenden',
  leaveOut: 'Weglassen',
  mustBeANumberSuch: (label, text) => `${label} muss eine Zahl sein, etwa 0,01, nicht „${text}“.`,

  // lists.js
  read: 'Lesen',
  inTheSettings: 'in den Einstellungen',
  deleteWord: 'Löschen',

  // mappings.js
  saved: (rule) => `Gespeichert: ${rule}`,

  // parts.js
  same: 'Gleich',
  sensor: 'Sensor',
  any: 'Beliebig',
  hexadecimal: 'Hexadezimal',
  base64: 'Base64',
  empty: '(leer)',
  unpackBytesOf: (name) => `Bytes von ${name} auspacken`,
  byte: (part) => `Byte ${part}`,
  encoding: 'Kodierung',
  tapTheFirstByteOf: 'Das erste Byte eines Werts antippen.',

  // rule.js
  bytesTo: (firstByte, last) => `Bytes ${firstByte} bis ${last}`,
  theWholePayload: 'der ganze Inhalt',
  inWord: (unit) => ` in ${unit}`,
  at: (quantity, place, part) => `${quantity} bei ${place}${part}`,

  // trial.js
  noValueIsChosenYet: 'Noch kein Wert gewählt.',
};
