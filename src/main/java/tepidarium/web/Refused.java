package tepidarium.web;

import io.javalin.http.HttpStatus;
import tepidarium.reading.BrokenRule;

/**
 * Thrown by a route to refuse a request with a status and a rule for which the pages have words.
 */
public final class Refused extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final HttpStatus status;
  private final transient BrokenRule broken;

  public Refused(HttpStatus status, String words, BrokenRule broken) {
    super(words);
    this.status = status;
    this.broken = broken;
  }

  public HttpStatus status() {
    return status;
  }

  public BrokenRule broken() {
    return broken;
  }
}
