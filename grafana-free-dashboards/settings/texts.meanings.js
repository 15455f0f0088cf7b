// What each setting means, in German: the tables of src/docs/settings.md and src/docs/notices.md. A long list of texts.

/** Defaults that are words. */
export const DEFAULTS = {
  none: 'keine',
  'for ever': 'für immer',
  'no reminders': 'keine Erinnerungen',
  'the machine’s': 'die des Rechners',
  "the machine's": 'die des Rechners',
  'backups/ of the data folder': 'backups/ im Datenordner',
  '587, or 465 with implicit': '587, mit implicit 465',
};

export const MEANINGS = {
  data: 'Ordner für alles, was aufbewahrt wird, auf einem Datenträger dieses Rechners',
  httpHost: 'Adresse der Seiten und der API; 0.0.0.0 lässt andere Rechner herein, mit Anmeldung',
  httpPort: 'Port der Seiten und der API; 0 nimmt einen freien',
  httpNames: 'weitere Rechnernamen der Seiten, etwa [garden.example.org] eines Reverse-Proxys',
  login:
    'auto verlangt eine Anmeldung, außer httpHost ist eine Adresse dieses Rechners; always, für einen Reverse-Proxy vor einer solchen; never nur, wenn ein Proxy sie verlangt',
  'tls.certificate': 'PEM-Datei des Zertifikats, etwa chain.pem: liefert die Seiten über TLS',
  'tls.key': 'PEM-Datei des Schlüssels zum Zertifikat, etwa key.pem',
  proxies: 'Adressen von Reverse-Proxys, deren X-Forwarded-For und X-Forwarded-Proto geglaubt wird, etwa [127.0.0.1]',
  broker: 'embedded oder die Adresse eines eigenen: tcp://192.168.1.5:1883 oder ssl://…',
  brokerUser: 'Name zur Anmeldung am eigenen Broker',
  brokerPassword: 'Passwort zur Anmeldung am eigenen Broker',
  'brokerTls.ca': 'PEM-Datei der Stelle, die das Zertifikat des eigenen Brokers (ssl://…) ausgestellt hat',
  'brokerTls.certificate': 'PEM-Datei des eigenen Zertifikats für diesen Broker',
  'brokerTls.key': 'PEM-Datei des Schlüssels dazu',
  mqttHost: 'Adresse, an der der eingebaute Broker hört',
  mqttPort: 'Port des eingebauten Brokers',
  mqttTlsPort: 'weiterer Port des eingebauten Brokers, mit TLS aus den Dateien in tls, etwa 8883',
  anonymousSensors:
    'wo der eingebaute Broker Sensoren ohne Konto annimmt: never (nirgends), loopback (auf diesem Rechner), everywhere (überall). auto heißt loopback in einem neuen Datenordner',
  accounts: 'Namen und Passwörter von Sensoren am eingebauten Broker, neben den Konten der Seite Sensoren',
  grants: 'Topics, die ein Konto neben den eigenen benutzen darf',
  maxSensors: 'so viele Sensornamen werden ohne Weiteres angenommen',
  newSensorsPerHour:
    'so viele neue Namen werden darüber hinaus je Stunde angenommen; Messwerte anderer werden abgewiesen, die bekannter und eingesetzter Sensoren nie',
  sessionHours: 'der eingebaute Broker vergisst einen abwesenden Teilnehmer nach dieser Zeit, 1 bis 576 h',
  sessionMegabytes:
    'so viele Nachrichten dürfen dort auf einen Teilnehmer warten, MiB; darüber werden sie gelöscht, und der Zustand nennt ihn',
  clientMessagesPerSecond:
    'so viele Nachrichten je Sekunde liest der eingebaute Broker von einem Teilnehmer; die übrigen warten',
  clientKilobytesPerSecond: 'so viele KiB je Sekunde liest er von einem Teilnehmer',
  rootTopic: 'Topic, unter dem Sensoren senden',
  mappings: 'Regeln für Sensoren mit eigenem Format; die Seite Zuordnungsregeln speichert weitere',
  maxPayloadBytes: 'größere Nachrichten werden abgewiesen; höchstens 16 MiB',
  maxGapMinutes: 'Messwerte, die weiter auseinanderliegen, lassen eine Lücke; 1 bis 1440 min',
  silentAfterMinutes:
    'ein eingesetzter Sensor, der so lange schweigt, löst eine Warnung aus; erst nach drei üblichen Abständen, höchstens 6 h, wenn das länger ist',
  silentGraceSeconds:
    'so lange gilt kein Sensor als stumm: nach dem Start, nach dem letzten Teil seines Rückstands und nach einer Änderung seines Behälters',
  recordsUrl:
    'Aufzeichnungen in dieser PostgreSQL-Datenbank aufbewahren, etwa postgresql://192.168.1.5:5432/tepidarium, anstelle von records.db',
  recordsUser: 'Name zur Anmeldung dort',
  recordsPassword: 'Passwort zur Anmeldung dort',
  standby:
    'true: mehrere Dienste teilen sich die Datenbank der Aufzeichnungen; einer arbeitet, die anderen warten auf die Übernahme',
  readingsUrl:
    'Messwerte in dieser PostgreSQL-Datenbank aufbewahren, etwa postgresql://192.168.1.5:5432/tepidarium, anstelle von readings.db; oder in diesem Cassandra-Keyspace, etwa cassandra://192.168.1.5,192.168.1.6/tepidarium?dc=datacenter1',
  readingsUser: 'Name zur Anmeldung dort',
  readingsPassword: 'Passwort zur Anmeldung dort',
  influxUrl: 'Messwerte in dieser InfluxDB aufbewahren, etwa http://192.168.1.5:8086',
  influxDatabase: 'Datenbank dort; wird angelegt, wenn sie fehlt',
  influxUser: 'Name zur Anmeldung dort',
  influxPassword: 'Passwort zur Anmeldung dort',
  influxToken: 'Token zur Anmeldung dort, anstelle von Name und Passwort',
  spoolMaxMegabytes:
    'Platz für Messwerte, solange deren Server fort ist, MiB; ist er voll, bleiben Nachrichten unbestätigt im Broker',
  keepRawDays: 'ältere Rohmesswerte werden gelöscht, höchstens ein Tag je Stunde; die Stundensummen bleiben',
  'backups.every': 'wie oft die Aufzeichnungen selbsttätig gesichert werden: hour, day, week oder never',
  'backups.keep': 'so viele selbsttätige Sicherungen bleiben erhalten, 1 bis 1000',
  'backups.folder': 'Ordner der selbsttätigen Sicherungen; ein anderer muss schon da sein',
  logFormat: 'Form der Zeilen im Protokoll: text, oder json mit einem Objekt je Zeile',
  timeZone: 'wo ein Tag beginnt, für Auswertungen nach Tagen',
  'site.name':
    'Name dieses Standorts, 1 bis 40 Buchstaben, Ziffern, Leerzeichen, Punkte und Bindestriche; oben auf den Seiten und am Anfang jeder Meldung',
  'site.latitude': 'Grad Nord, etwa 52.5; unterscheidet Tageslicht von einer Lampe',
  'site.longitude': 'Grad Ost, etwa 13.4; unterscheidet Tageslicht von einer Lampe',
  sites:
    'andere Standorte für die Seite Standorte: je Name die Adressen seiner Rechner, etwa {Nord: [https://nord.example.org]}',
  siteTokens: 'Zugangstoken für deren API, je Name eines',
  'notices.email.host': 'Mailserver, etwa mail.example.org; der Anbieter nennt ihn',
  'notices.email.port': 'sein Port',
  'notices.email.tls': 'Verschlüsselung: starttls, implicit (vom ersten Byte an) oder none (keine)',
  'notices.email.user': 'Name zur Anmeldung dort, oft die eigene Adresse',
  'notices.email.password': 'Passwort zur Anmeldung dort. Die Seite zeigt es nie wieder',
  'notices.email.passwordEnv': 'Umgebungsvariable mit dem Passwort, anstelle des Passworts',
  'notices.email.passwordFile': 'Datei mit dem Passwort, anstelle des Passworts',
  'notices.email.from': 'Adresse, von der die Meldungen kommen',
  'notices.email.to': 'Adresse, die sie bekommt; mehrere mit Komma',
  'notices.email.escalateTo': 'Adresse, die Meldung bekommt, wenn niemand eine Warnung bestätigt',
  'notices.email.certificateFile': 'PEM-Datei: diesem Zertifikat eines Servers im Haus trauen',
  'notices.webhook.url': 'Adresse, die jede Meldung als HTTP-Anfrage bekommt. Die Seite zeigt sie nie wieder',
  'notices.webhook.secret': 'Geheimnis für die Unterschrift dieser Anfragen. Die Seite zeigt es nie wieder',
  'notices.webhook.secretEnv': 'Umgebungsvariable mit diesem Geheimnis',
  'notices.webhook.secretFile': 'Datei mit diesem Geheimnis',
  'notices.quietHours.low': 'Stunden, in denen Meldungen niedriger Dringlichkeit warten, etwa 22:00-07:00',
  'notices.quietHours.medium': 'Stunden, in denen Meldungen mittlerer Dringlichkeit warten, etwa 22:00-07:00',
  'notices.quietHours.high': 'Stunden, in denen Meldungen hoher Dringlichkeit warten, etwa 22:00-07:00',
  'notices.summaryAt': 'Uhrzeit der täglichen Zusammenfassung, etwa 07:30',
  'notices.escalateAfterMinutes': 'Zeit ohne Bestätigung, bevor escalateTo eine Meldung bekommt, 1 bis 10 080 min',
  'notices.remindAfterHours': 'Zeit zwischen Erinnerungen an das, was niemand bestätigt hat, 0,5 bis 720 h',
  'notices.tellReturned': 'ob eine Meldung meldet, dass alles wieder gut ist',
  'notices.collectSeconds':
    'so lange wird vor einer Meldung auf weiteres gewartet; weitere der gleichen Art warten zehnmal so lange, höchstens 10 min; mit 0 ist jede Warnung eine Meldung für sich',
  'notices.giveUpAfterHours': 'so lange wird die Zustellung versucht, 0,1 bis 720 h',
  'notices.language': 'Sprache der Meldungen: en (Englisch) oder de (Deutsch)',
  'notices.temperatureUnit': 'Einheit in Meldungen: °C oder °F',
  'notices.publicUrl':
    'Adresse der Seiten von anderen Geräten aus, etwa http://192.168.1.20:8080, für Verweise in Meldungen und auf Etiketten',
  'notices.heartbeatUrl': 'Adresse, die regelmäßig aufgerufen wird (Lebenszeichen). Die Seite zeigt sie nie wieder',
  'notices.heartbeatMinutes': 'Zeit zwischen diesen Aufrufen, 0,1 bis 1440 min',
  'notices.brokerAwayMinutes': 'so lange ohne Broker ist eine Störung, 1 bis 10 080 min',
  'notices.diskFreeMegabytes': 'weniger freier Platz als dieser ist eine Störung, MiB',
};
