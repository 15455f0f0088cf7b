/**
 * Reads the files of other data loggers: guesses the form of a file, gives the reason for each
 * guess, and converts its rows into readings.
 */
@NullMarked
package tepidarium.importing;

import org.jspecify.annotations.NullMarked;
