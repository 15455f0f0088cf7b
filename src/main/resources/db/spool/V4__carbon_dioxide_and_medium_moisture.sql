-- Carbon dioxide in ppm and moisture of the medium in %, in whole ten-thousandths like the others.
ALTER TABLE waiting ADD COLUMN co2 INTEGER;
ALTER TABLE waiting ADD COLUMN mediumMoisture INTEGER;
