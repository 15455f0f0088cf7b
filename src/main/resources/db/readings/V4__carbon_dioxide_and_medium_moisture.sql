-- Carbon dioxide in ppm and moisture of the medium in %, in whole ten-thousandths like the others.
ALTER TABLE reading ADD COLUMN co2 INTEGER;
ALTER TABLE reading ADD COLUMN mediumMoisture INTEGER;
ALTER TABLE uncertain_reading ADD COLUMN co2 INTEGER;
ALTER TABLE uncertain_reading ADD COLUMN mediumMoisture INTEGER;
