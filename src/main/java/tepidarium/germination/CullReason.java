package tepidarium.germination;

/** Why a seed was discarded. */
public enum CullReason {
  MOULD,
  DEAD,
  EMPTY,
  EATEN,
  /** Taken out for another purpose, such as a look inside. */
  TAKEN,
  OTHER
}
