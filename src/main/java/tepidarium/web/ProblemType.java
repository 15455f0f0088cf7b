package tepidarium.web;

import java.util.Locale;

/** The types of problem details that are more specific than the HTTP status (RFC 9457). */
public enum ProblemType {
  /** A field or parameter is invalid. */
  INVALID_INPUT,
  /** The requested object does not exist. */
  NOT_FOUND,
  /** The change contradicts the stored records. */
  CONTRADICTION,
  /** A store is unavailable. */
  STORE_AWAY;

  /** The URI of the type, such as {@code urn:tepidarium:problem:not-found}. */
  public String uri() {
    return "urn:tepidarium:problem:" + name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
