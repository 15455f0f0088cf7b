#include "battery.h"

const struct tp_battery_curve tp_lithium_cell = {
    6, {{3300, 0}, {3600, 10}, {3700, 30}, {3800, 55}, {3950, 80}, {4200, 100}},
};

const struct tp_battery_curve tp_three_alkaline = {
    5, {{2700, 0}, {3300, 20}, {3600, 50}, {4200, 85}, {4800, 100}},
};

uint16_t tp_divider_mv(uint16_t measured_mv, uint32_t upper_ohm, uint32_t lower_ohm)
{
    uint64_t mv = (uint64_t)measured_mv * ((uint64_t)upper_ohm + lower_ohm) / lower_ohm;
    return mv > UINT16_MAX ? UINT16_MAX : (uint16_t)mv;
}

uint8_t tp_battery_percent(uint16_t mv, const struct tp_battery_curve *curve)
{
    if (mv <= curve->points[0].mv) {
        return curve->points[0].percent;
    }
    for (size_t i = 1; i < curve->count; i++) {
        if (mv < curve->points[i].mv) {
            uint32_t span_mv = (uint32_t)curve->points[i].mv - curve->points[i - 1].mv;
            uint32_t rise = (uint32_t)curve->points[i].percent - curve->points[i - 1].percent;
            uint32_t above = (uint32_t)mv - curve->points[i - 1].mv;
            return (uint8_t)(curve->points[i - 1].percent + rise * above / span_mv);
        }
    }
    return curve->points[curve->count - 1].percent;
}
