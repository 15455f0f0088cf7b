/* A program with everything that the portable part needs on a chip: for its size alone, never run. */
#include "../portable/node.h"

static struct tp_memory memory; /* on a board: in RTC memory */
static char payload[1024];
extern const struct tp_settings board_settings;
extern const struct tp_board board_functions;

typedef char memory_fits_into_rtc_memory[sizeof(struct tp_memory) <= TP_RTC_BYTES ? 1 : -1];

void node_main(void);
void node_main(void)
{
    const struct tp_node node = {&board_settings, &board_functions, &memory, payload, sizeof payload};
    tp_node_start(&node, 1);
    for (;;) {
        tp_node_wake(&node);
    }
}
