package tepidarium.fault;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;

/**
 * Decides which readings of one sensor figures leave out. Error codes are left out unless the
 * grower includes them. Any other reading is counted unless it lies in a stretch that the grower
 * excluded. Immutable and thread-safe.
 */
public final class Exclusions {
  /** Without decisions: only error codes are left out. */
  public static final Exclusions DEFAULT = new Exclusions(List.of());

  /** Changes when the rules for error codes change, so that stored sums are computed again. */
  private static final int RULES = 1;

  /** How much of a faulty stretch figures leave out. */
  public enum State {
    COUNTED,
    EXCLUDED,
    PARTLY_EXCLUDED
  }

  /** Newest first. */
  private final List<FaultDecision> decisions;

  private final Set<FaultKind> decidedKinds;

  /** Takes the decisions about one sensor, oldest first. */
  public Exclusions(List<FaultDecision> decisions) {
    List<FaultDecision> newest = new ArrayList<>(decisions);
    Collections.reverse(newest);
    this.decisions = List.copyOf(newest);
    decidedKinds =
        decisions.stream().map(FaultDecision::kind).collect(Collectors.toUnmodifiableSet());
  }

  /** The samples that figures count. A removed sample leaves a gap, however short. */
  public Samples counted(Quantity quantity, Samples raw) {
    return raw.without((atMs, value) -> excludes(quantity, atMs, value));
  }

  /** Whether figures leave a raw reading out. */
  public boolean excludes(Quantity quantity, long atMs, double raw) {
    FaultKind code = ErrorCodes.of(quantity, raw).orElse(null);
    if (code != null && isExcluded(quantity, code, atMs)) {
      return true;
    }
    for (FaultKind kind : decidedKinds) {
      if (!kind.isErrorCode() && isExcluded(quantity, kind, atMs)) {
        return true;
      }
    }
    return false;
  }

  private boolean isExcluded(@Nullable Quantity quantity, FaultKind kind, long atMs) {
    for (FaultDecision decision : decisions) {
      if (decision.concerns(quantity, kind, atMs)) {
        return decision.excluded();
      }
    }
    return kind.isErrorCode();
  }

  /** How much of a fault of this sensor is left out. */
  public State state(Fault fault) {
    long from = fault.from().toEpochMilli();
    long to = fault.to().toEpochMilli();
    Set<Long> instants = new TreeSet<>(List.of(from, to));
    for (FaultDecision decision : decisions) {
      instants.add(decision.from().toEpochMilli());
      instants.add(decision.to().toEpochMilli() + 1);
    }
    int excluded = 0;
    int counted = 0;
    for (long at : instants) {
      if (at >= from && at <= to) {
        boolean out = isExcluded(fault.quantity(), fault.kind(), at);
        excluded += out ? 1 : 0;
        counted += out ? 0 : 1;
      }
    }
    if (excluded > 0 && counted > 0) {
      return State.PARTLY_EXCLUDED;
    }
    return excluded > 0 ? State.EXCLUDED : State.COUNTED;
  }

  /** The newest decision about a fault; null if there is none. */
  public @Nullable FaultDecision decision(Fault fault) {
    for (FaultDecision decision : decisions) {
      boolean overlaps =
          !decision.from().isAfter(fault.to()) && !decision.to().isBefore(fault.from());
      if (overlaps
          && decision.kind() == fault.kind()
          && (decision.quantity() == null || decision.quantity() == fault.quantity())) {
        return decision;
      }
    }
    return null;
  }

  /** Equal keys leave out the same readings. */
  public String key() {
    return decisions.stream()
        .map(
            one ->
                String.join(
                    " ",
                    String.valueOf(one.quantity()),
                    one.kind().key(),
                    one.from().toString(),
                    one.to().toString(),
                    String.valueOf(one.excluded())))
        .collect(Collectors.joining("\n", "left out by rules " + RULES + '\n', ""));
  }
}
