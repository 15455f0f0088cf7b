package tepidarium.reading;

import java.util.Map;

/**
 * A rule that an input broke, with its figures. A page makes a sentence of it in the language of
 * its reader.
 *
 * @param figures by their names in {@link InputRule}; without those that are not known
 */
public record BrokenRule(InputRule rule, Map<String, Object> figures) {}
