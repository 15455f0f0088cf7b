/* Measures once with all chips that are fitted. */
#ifndef TP_MEASURE_H
#define TP_MEASURE_H

#include "board.h"
#include "reading.h"

/*
 * Fills the values of a reading, not its time. A chip that does not answer, or whose checksum is wrong
 * twice, leaves its values out and is logged. A DS18B20 that shows its power-on value twice is
 * reported as it is: the service flags 85.0 degC. It replaces the temperature of an SHT3x.
 */
void tp_measure(const struct tp_board *board, struct tp_reading *reading);

#endif
