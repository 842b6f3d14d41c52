package phrasecensus.composer.score;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;

/**
 * A manner of writing MusicXML. The manners cover the ways in which notation programs differ; none
 * imitates a particular one, and every file names this composer as its software.
 */
public enum Dialect {
  /** Everything a layout needs: beams, stems, positions, line breaks. */
  ENGRAVED("musicxml", 480, "  ", StandardCharsets.UTF_8),
  /** As little as the standard allows, in the fewest divisions. */
  PLAIN("musicxml", 0, null, StandardCharsets.UTF_8),
  /** Solo and piano; chord symbols in the piano part only. */
  CHORDS_IN_PIANO("musicxml", 24, null, StandardCharsets.UTF_8),
  /** Solo and piano; chord symbols in both. */
  CHORDS_IN_BOTH("musicxml", 12, " ", StandardCharsets.UTF_8),
  /** Concert-pitch score. */
  CONCERT("musicxml", 96, "\t", StandardCharsets.UTF_8),
  /** All chords of a bar at its beginning, with offsets; a great many divisions. */
  OFFSETS("xml", 10080, "  ", StandardCharsets.UTF_8),
  /** UTF-16 with byte order mark. */
  WIDE("xml", 0, null, StandardCharsets.UTF_16),
  /** ISO-8859-1 with letters beyond ASCII. */
  LATIN("xml", 0, null, StandardCharsets.ISO_8859_1),
  /** Compressed container. */
  ZIPPED("mxl", 240, null, StandardCharsets.UTF_8);

  private final String extension;
  private final int divisions;
  private final String indent;
  private final Charset charset;

  Dialect(String extension, int divisions, String indent, Charset charset) {
    this.extension = extension;
    this.divisions = divisions;
    this.indent = indent;
    this.charset = charset;
  }

  /** File name ending without the dot. */
  public String extension() {
    return extension;
  }

  /** Divisions of a quarter note, 0 for the fewest that do. */
  int divisions() {
    return divisions;
  }

  String indent() {
    return indent;
  }

  Charset charset() {
    return charset;
  }

  /** Version of the standard the file names. */
  String version() {
    return switch (this) {
      case PLAIN, LATIN -> "3.1";
      case ENGRAVED, CHORDS_IN_PIANO, CHORDS_IN_BOTH, CONCERT, OFFSETS, WIDE, ZIPPED -> "4.0";
    };
  }

  boolean doctype() {
    return this == ENGRAVED || this == CHORDS_IN_BOTH || this == OFFSETS || this == LATIN;
  }

  boolean layout() {
    return this == ENGRAVED;
  }

  boolean accidentals() {
    return this == ENGRAVED || this == CHORDS_IN_BOTH || this == CONCERT;
  }

  boolean marks() {
    return this != PLAIN && this != WIDE;
  }

  boolean piano() {
    return this == CHORDS_IN_PIANO || this == CHORDS_IN_BOTH;
  }

  boolean chordsInSolo() {
    return this != CHORDS_IN_PIANO;
  }

  boolean concert() {
    return this == CONCERT;
  }

  /** True when a chord change may fall inside a written note; else the note is split and tied. */
  boolean offsets() {
    return this == OFFSETS;
  }

  /** True when every bar of the chart shows its chords, false when only changes are written. */
  boolean everyBar() {
    return this == ENGRAVED || this == ZIPPED || this == CHORDS_IN_BOTH;
  }
}
