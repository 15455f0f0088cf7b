/* Voltage of the battery, and a rough estimate of its charge. */
#ifndef TP_BATTERY_H
#define TP_BATTERY_H

#include <stddef.h>
#include <stdint.h>

/*
 * Voltage in mV of a battery measured through a divider: the converter sees
 * battery * lower / (upper + lower).
 */
uint16_t tp_divider_mv(uint16_t measured_mv, uint32_t upper_ohm, uint32_t lower_ohm);

/* Charge of a kind of battery at some voltages, from empty to full. */
struct tp_battery_curve {
    size_t count; /* of the points, at least 1 */
    struct {
        uint16_t mv;
        uint8_t percent;
    } points[6];
};

/* One lithium-ion cell at rest, room temperature (common practice, no source; cells differ by 10 %). */
extern const struct tp_battery_curve tp_lithium_cell;

/* Three alkaline cells in series, small load (common practice, no source). */
extern const struct tp_battery_curve tp_three_alkaline;

/* Charge in percent, by a straight line between the points. */
uint8_t tp_battery_percent(uint16_t mv, const struct tp_battery_curve *curve);

#endif
