package tepidarium.disk;

import java.time.LocalDate;

/**
 * The size of the data folder on one day.
 *
 * @param bytes size of all files
 */
public record DailySize(LocalDate day, long bytes) {}
