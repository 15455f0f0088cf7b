package tepidarium.germination;

/** Why a seed was discarded. */
public enum CullReason {
  MOULD,
  DEAD,
  EMPTY,
  EATEN,
  /** Removed for another purpose, such as a cut test. */
  TAKEN,
  OTHER
}
