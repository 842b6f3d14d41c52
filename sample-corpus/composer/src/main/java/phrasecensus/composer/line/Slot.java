package phrasecensus.composer.line;

/**
 * A place for a tone, not yet pitched.
 *
 * @param onset ticks from bar 1
 * @param length sounding ticks
 */
record Slot(int onset, int length) {
  int end() {
    return onset + length;
  }
}
