package tepidarium.reading;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * The rules of the inputs that a grower makes on the pages, with the names of their figures. The
 * code and the figures of a refusal let a page say it in another language. A {@code unit} holds for
 * {@code value}, {@code than}, {@code least} and {@code most} of a refusal; "K" is a difference of
 * temperatures in °C.
 */
public enum InputRule {
  /** The field is missing. */
  MISSING,
  /** A text with more than {@code most} characters. */
  TOO_LONG("most"),
  /** A text with less than {@code least} characters. */
  TOO_SHORT("least"),
  /** A text with more than {@code most} bytes in UTF-8. */
  BYTES("most"),
  /** A text that is empty or has more than {@code most} characters. */
  LENGTH("most"),
  /**
   * A text with characters that cannot be shown, or not of 1 to {@code most} characters among
   * {@code allowed}.
   */
  CHARACTERS("allowed", "most"),
  /** Not a whole number from {@code least} to {@code most}. */
  WHOLE("least", "most"),
  /** A number not from {@code least} to {@code most}; {@code unit} may be empty. */
  RANGE("least", "most", "unit"),
  /** A number not above {@code least}, or above {@code most}. */
  ABOVE("least", "most"),
  /** A number {@code value} that must lie above {@code than}, the value of the field {@code of}. */
  HIGHER("value", "than", "of", "unit"),
  /** Not a number, but {@code value}. */
  NUMBER("value"),
  /** Not one of {@code choices}, but {@code value}. */
  CHOICE("value", "choices"),
  /** Less than {@code least}, which may be null, or more than {@code most} entries. */
  COUNT("least", "most"),
  /** Not an instant, but {@code value}. */
  INSTANT("value"),
  /** An instant later than {@code now}. */
  FUTURE("now"),
  /** A time before {@code earliest}. */
  TOO_EARLY("earliest"),
  /** A time before {@code earliest}, from which on the readings are still kept. */
  READINGS_DELETED("earliest"),
  /** A span whose end lies before its start. */
  ORDER,
  /** A span whose end does not lie after its start. */
  AFTER,
  /** A span longer than {@code days}. */
  SPAN("days"),
  /** An opening whose end does not lie after its start, or by more than {@code minutes}. */
  OPENING("minutes"),
  /** Something else has this name, {@code value}. */
  TAKEN("value"),
  /** There are {@code most} already. */
  FULL("most"),
  /** There is no such thing as {@code value}. */
  NOT_FOUND("value"),
  /** Two that must differ are the same. */
  SAME,
  /** The present password is another one. */
  WRONG_PASSWORD,
  /** The name or the password of a sign-in is wrong. */
  WRONG_LOGIN,
  /** Too many attempts; the next one is accepted in {@code seconds}. */
  WAIT("seconds"),
  /** A password that is guessed first. */
  COMMON_PASSWORD,
  /** One person at least must keep the role own. */
  LAST_OWNER,
  /** A list with a text that is not an MQTT topic filter of at most {@code most} characters. */
  TOPICS("most"),
  /** A setting that stands in the file of settings or in the command. */
  SET_ELSEWHERE,
  /** Neither JPEG nor PNG. */
  PICTURE,
  /** {@code sensor} has sent no reading yet. */
  NOT_HEARD("sensor"),
  /** {@code sensor}, which is calibrated, has sent no reading yet. */
  SILENT("sensor"),
  /** A time before the {@code first} reading of {@code sensor}. */
  BEFORE_FIRST("sensor", "first"),
  /** {@code sensor} is in no container at that time. */
  NOT_PLACED("sensor"),
  /** {@code sensor} was in no container at that time or before. */
  NEVER_PLACED("sensor"),
  /** {@code sensor} is in {@code place}, null for the room, since {@code since} already. */
  PLACED("sensor", "place", "since"),
  /** {@code sensor} was in {@code place}, null for the room, then. {@code until} may be null. */
  OVERLAPS("sensor", "place", "from", "until"),
  /** Two calibration points have the {@code value}. */
  SAME_READING("value", "unit", "hours"),
  /** Light is calibrated with a point in the dark. */
  DARK_FIRST("hours"),
  /** The reading falls as the true value rises. */
  SWAPPED,
  /** A {@code gain} that no working sensor has. */
  GAIN("gain", "least", "most"),
  /** Seeds of {@code sowing} lie in the container. */
  SEEDS_INSIDE("sowing"),
  /** Seeds of {@code sowing} were in the container. */
  SEEDS_WERE_INSIDE("sowing"),
  /** {@code lot} is of this species. */
  SPECIES_OF_LOT("lot"),
  /** {@code sowing} would be older than its {@code lot}. */
  BEFORE_GATHERING("sowing", "sownAt", "lot", "gatheredAt"),
  /** More seeds were {@code sown} than {@code lot} has. */
  LOT_TOO_SMALL("lot", "seeds", "sown"),
  /** An entry before its sowing. */
  BEFORE_SOWING,
  /** There is no {@code group} at that time. */
  NO_GROUP("group"),
  /** {@code group} has no seeds left since {@code since}. */
  GROUP_EMPTY("group", "since"),
  /**
   * {@code group} has fewer seeds of a {@code stage}, {@code available}, than the {@code wanted}.
   */
  TOO_FEW_SEEDS("group", "stage", "wanted", "available"),
  /** The {@code group} to join lies in {@code place}, another container's id. */
  GROUP_LIES_IN("group", "place"),
  /** The seeds of {@code group} lie in {@code place} already. */
  ALREADY_THERE("group", "place"),
  /** A move of no seeds. */
  NO_SEEDS,
  /** An entry that was corrected or withdrawn already is corrected again. */
  CORRECTED_ALREADY,
  /** More than {@code most} seeds would be needed. */
  SEEDS_NEEDED("most"),
  /** A calibration method that gives one true value only, {@code value}. */
  VALUE_OF_METHOD("value", "unit"),
  /** A visitor with the {@code role} does what only the role {@code needed} may. */
  ROLE("needed", "role"),
  /** No person is signed in. */
  SIGNED_OUT,
  /** The service asks for no login. */
  NO_LOGIN,
  /** As many sign-ins, exports or imports as possible are under way. */
  BUSY,
  /** There are {@code most} live pages open already. */
  PAGES_OPEN("most"),
  /** An import whose text is not CSV (RFC 4180). */
  NOT_CSV,
  /** The first line of an imported table must name its columns, {@code choices}. */
  NO_HEADER("choices"),
  /** An imported table may have the columns {@code choices}, but not {@code value}. */
  UNKNOWN_COLUMN("value", "choices"),
  /** The header of an imported table names a column twice. */
  COLUMN_TWICE,
  /** A line with another number of {@code cells} than its header has {@code columns}. */
  CELLS("cells", "columns"),
  /** An imported table has more than {@code most} rows. */
  TOO_MANY_ROWS("most"),
  /** A text that should be a UUID, but is {@code value}. */
  UUID("value"),
  /** An imported row is about {@code value}, which is here already with other contents. */
  DIFFERS("value"),
  /** An imported file that is no zip file with tables. */
  NO_ZIP,
  /** An imported zip file that is damaged or ends too early. */
  ZIP_DAMAGED,
  /** An imported zip file that unpacks to more than {@code most} MB. */
  ZIP_TOO_LARGE("most"),
  /** An imported zip file holds {@code file}, but may only hold the tables {@code choices}. */
  ZIP_OTHER_FILE("file", "choices"),
  /** An imported zip file holds {@code file} twice. */
  ZIP_FILE_TWICE("file"),
  /** The imported {@code file} is not in UTF-8. */
  ENCODING("file"),
  /** An imported file of a logger is larger than {@code most} GiB. */
  FILE_TOO_LARGE("most"),
  /** The disk has too little space for an imported file. */
  NO_SPACE,
  /** The import runs, or another one does. */
  RUNNING,
  /** The import is done already. */
  DONE,
  /** The name of an import profile, of at most {@code most} characters. */
  PROFILE_NAME("most");

  @SuppressWarnings("ImmutableEnumChecker") // A list of List.of cannot be changed.
  private final List<String> figures;

  InputRule(String... figures) {
    this.figures = List.of(figures);
  }

  /** The code in the API, such as {@code too-long}. */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The names of the figures. */
  public List<String> figures() {
    return figures;
  }

  /**
   * The rule as an input broke it.
   *
   * @param values of the figures, in their order; null for one that is not known
   */
  public BrokenRule with(@Nullable Object... values) {
    return new BrokenRule(this, NamedFigures.of(figures, values));
  }
}
