package tepidarium.faults;

import java.util.ArrayList;
import java.util.List;

/**
 * Counts what the service answered to the tries of one attack. A try is handled when the service
 * refused it, or took it and counted it. Used by one thread.
 */
final class Tries {
  private static final int MAX_WORDS = 5;

  private final List<String> unhandled = new ArrayList<>();
  private long tried;
  private long handled;
  private long acknowledged;

  /** A try that was refused in a way that its sender can see. */
  void refused() {
    tried++;
    handled++;
  }

  /** A message below the root topic that was acknowledged: the service must count it. */
  void acknowledged() {
    refused();
    acknowledged++;
  }

  /** A connection that stays open without an answer, which harms nobody but its own client. */
  void held() {
    tried++;
  }

  /** A try that got no answer, or one that no client can understand. */
  void unhandled(String words) {
    tried++;
    if (unhandled.size() < MAX_WORDS) {
      unhandled.add(words);
    }
  }

  void check(boolean good, String words) {
    if (good) {
      refused();
    } else {
      unhandled(words);
    }
  }

  long tried() {
    return tried;
  }

  long handled() {
    return handled;
  }

  /** How many messages the service must have counted as received, at least. */
  long mustBeCounted() {
    return acknowledged;
  }

  /** The first answers that were not as they should be, in words. */
  List<String> problems() {
    return List.copyOf(unhandled);
  }
}
