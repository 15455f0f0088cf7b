package tepidarium.bench;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Tasks of the main thread of a page, in processor time, so that other programs of the machine do
 * not count: the longest and the sum, ms.
 */
record Tasks(double longestMs, double sumMs) {
  static final List<String> TRACED = List.of("toplevel", "devtools.timeline");
  private static final String TASK = "ThreadControllerImpl::RunTask";

  /** Reads the trace of one page. */
  static Tasks of(byte[] trace) {
    try {
      JsonNode events = new ObjectMapper().readTree(trace).path("traceEvents");
      Map<String, Double> sums = new HashMap<>();
      Map<String, Double> longest = new HashMap<>();
      List<String> mains = new ArrayList<>();
      for (JsonNode event : events) {
        String thread = event.path("pid").asText() + '/' + event.path("tid").asText();
        if (event.path("args").path("name").asText().equals("CrRendererMain")) {
          mains.add(thread);
        }
        if (event.path("name").asText().equals(TASK)) {
          double ms = event.path("tdur").asDouble() / 1000;
          sums.merge(thread, ms, Double::sum);
          longest.merge(thread, ms, Math::max);
        }
      }
      // A browser may hold a spare process; the busiest main thread is that of the page.
      return mains.stream()
          .filter(sums::containsKey)
          .map(main -> new Tasks(longest.getOrDefault(main, 0.0), sums.getOrDefault(main, 0.0)))
          .max((a, b) -> Double.compare(a.sumMs, b.sumMs))
          .orElseThrow(() -> new IllegalStateException("the trace has no task of the page"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
