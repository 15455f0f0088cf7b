package tepidarium.web.alerts;

import java.util.List;
import java.util.Map;
import tepidarium.alert.AlertReason;

/** The JSON form of a reason of an alert. */
record AlertReasonJson(String code, Map<String, Object> figures) {
  static List<AlertReasonJson> of(List<AlertReason> reasons) {
    return reasons.stream()
        .map(reason -> new AlertReasonJson(reason.code().key(), reason.figures()))
        .toList();
  }
}
