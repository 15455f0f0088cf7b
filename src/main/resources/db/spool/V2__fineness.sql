-- Values are whole ten-thousandths of their unit from here on, no longer millionths.
UPDATE waiting SET
  temperature = CAST(round(temperature / 100.0) AS INTEGER),
  humidity = CAST(round(humidity / 100.0) AS INTEGER),
  light = CAST(round(light / 100.0) AS INTEGER),
  battery = CAST(round(battery / 100.0) AS INTEGER);
