package tepidarium.web;

import java.util.List;
import tepidarium.fault.FaultKind;
import tepidarium.rollup.LeftOut;

/** The JSON form of what a figure left out because of faults; times in h. */
public record LeftOutJson(String quantity, double hours, int stretches, List<String> kinds) {
  public static List<LeftOutJson> of(List<LeftOut> leftOut) {
    return leftOut.stream()
        .map(
            one ->
                new LeftOutJson(
                    one.quantity().key(),
                    one.hours(),
                    one.stretches(),
                    one.kinds().stream().map(FaultKind::key).toList()))
        .toList();
  }
}
