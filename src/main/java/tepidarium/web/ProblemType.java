package tepidarium.web;

import java.util.Locale;

/** The types of problem details that say more than the HTTP status does (RFC 9457). */
public enum ProblemType {
  /** A field or parameter cannot be used. */
  INVALID_INPUT,
  /** What was asked for does not exist. */
  NOT_FOUND,
  /** The record would contradict itself. */
  CONTRADICTION,
  /** A store does not answer. */
  STORE_AWAY;

  /** The URI of the type, such as {@code urn:tepidarium:problem:not-found}. */
  public String uri() {
    return "urn:tepidarium:problem:" + name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
