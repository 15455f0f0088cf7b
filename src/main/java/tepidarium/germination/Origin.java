package tepidarium.germination;

/** From where seed was gathered. */
public enum Origin {
  PLANT,
  GROUND,
  UNKNOWN
}
