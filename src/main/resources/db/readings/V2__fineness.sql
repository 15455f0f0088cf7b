-- Values are whole ten-thousandths of their unit from here on, no longer millionths: no sensor of the
-- trade resolves less, and a row takes about 26 bytes in place of 28.
UPDATE reading SET
  temperature = CAST(round(temperature / 100.0) AS INTEGER),
  humidity = CAST(round(humidity / 100.0) AS INTEGER),
  light = CAST(round(light / 100.0) AS INTEGER),
  battery = CAST(round(battery / 100.0) AS INTEGER);
