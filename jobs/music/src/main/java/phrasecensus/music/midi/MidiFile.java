package phrasecensus.music.midi;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import phrasecensus.music.time.Fraction;

/**
 * Writes one line as a Standard MIDI File of format 0 (MIDI Manufacturers Association, Standard
 * MIDI Files 1.0, 1996), 480 ticks to the quarter note. Lengths that are no whole number of ticks
 * are rounded.
 */
public final class MidiFile {
  /** Ticks to the quarter note. */
  public static final int TICKS = 480;

  private static final int CHANNEL_NOTE_OFF = 0x80;
  private static final int CHANNEL_NOTE_ON = 0x90;
  private static final int CHANNEL_PROGRAM = 0xC0;

  /** Neither soft nor loud. */
  private static final int VELOCITY = 72;

  /**
   * A sounding note.
   *
   * @param onset in quarter notes from the start
   * @param length in quarter notes; positive
   * @param midi sounding pitch; left out when it is not from 0 to 127
   */
  public record Sound(Fraction onset, Fraction length, int midi) {}

  /**
   * A tempo.
   *
   * @param onset in quarter notes from the start
   * @param quartersPerMinute positive
   */
  public record Tempo(Fraction onset, double quartersPerMinute) {}

  /** How eighths are played. */
  public enum Feel {
    /** As written. */
    STRAIGHT,
    /** Halves of a quarter note as two thirds and one third. */
    SWUNG
  }

  private record Event(long tick, int rank, byte[] bytes) {}

  private MidiFile() {}

  /**
   * The file.
   *
   * @param title name of the track
   * @param program General MIDI program, 0 to 127
   * @param tempi in order; empty for 120 quarters a minute
   */
  public static byte[] of(
      String title, int program, List<Tempo> tempi, List<Sound> sounds, Feel feel) {
    List<Event> events = new ArrayList<>();
    events.add(meta(0, 0x03, title.getBytes(StandardCharsets.UTF_8)));
    for (Tempo tempo : tempi) {
      int micros = (int) Math.round(Math.min(0xFFFFFF, 60_000_000 / tempo.quartersPerMinute()));
      events.add(
          meta(
              tick(tempo.onset(), Feel.STRAIGHT),
              0x51,
              new byte[] {(byte) (micros >> 16), (byte) (micros >> 8), (byte) micros}));
    }
    events.add(new Event(0, 1, new byte[] {(byte) CHANNEL_PROGRAM, (byte) program}));
    for (Sound sound : sounds) {
      if (sound.midi() < 0 || sound.midi() > 127) {
        continue;
      }
      long from = tick(sound.onset(), feel);
      long to = Math.max(from + 1, tick(sound.onset().plus(sound.length()), feel));
      events.add(channel(from, 3, CHANNEL_NOTE_ON, sound.midi(), VELOCITY));
      events.add(channel(to, 2, CHANNEL_NOTE_OFF, sound.midi(), 0));
    }
    events.sort(Comparator.comparingLong(Event::tick).thenComparingInt(Event::rank));
    ByteArrayOutputStream track = new ByteArrayOutputStream();
    long at = 0;
    for (Event event : events) {
      writeLength(track, event.tick() - at);
      track.writeBytes(event.bytes());
      at = event.tick();
    }
    track.writeBytes(new byte[] {0, (byte) 0xFF, 0x2F, 0});
    ByteArrayOutputStream file = new ByteArrayOutputStream();
    file.writeBytes("MThd".getBytes(StandardCharsets.US_ASCII));
    writeNumber(file, 6, 4);
    writeNumber(file, 0, 2);
    writeNumber(file, 1, 2);
    writeNumber(file, TICKS, 2);
    file.writeBytes("MTrk".getBytes(StandardCharsets.US_ASCII));
    writeNumber(file, track.size(), 4);
    file.writeBytes(track.toByteArray());
    return file.toByteArray();
  }

  /** A moment in ticks; swung, the first half of each quarter note is stretched to two thirds. */
  private static long tick(Fraction moment, Feel feel) {
    Fraction played = moment;
    if (feel == Feel.SWUNG) {
      Fraction whole = Fraction.of(moment.floor());
      Fraction rest = moment.minus(whole);
      played =
          whole.plus(
              rest.isBefore(Fraction.HALF)
                  ? rest.times(Fraction.of(4, 3))
                  : Fraction.of(2, 3).plus(rest.minus(Fraction.HALF).times(Fraction.of(2, 3))));
    }
    return Math.round(played.times(TICKS).toDouble());
  }

  private static Event meta(long tick, int type, byte[] content) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    bytes.write(0xFF);
    bytes.write(type);
    writeLength(bytes, content.length);
    bytes.writeBytes(content);
    return new Event(tick, 0, bytes.toByteArray());
  }

  private static Event channel(long tick, int rank, int status, int first, int second) {
    return new Event(tick, rank, new byte[] {(byte) status, (byte) first, (byte) second});
  }

  /** Seven bits a byte, the highest first; all but the last byte have the eighth bit. */
  private static void writeLength(ByteArrayOutputStream bytes, long value) {
    for (int shift = 21; shift > 0; shift -= 7) {
      if (value >> shift != 0) {
        bytes.write((int) (value >> shift & 0x7F | 0x80));
      }
    }
    bytes.write((int) (value & 0x7F));
  }

  private static void writeNumber(ByteArrayOutputStream bytes, long value, int size) {
    for (int shift = 8 * (size - 1); shift >= 0; shift -= 8) {
      bytes.write((int) (value >> shift & 0xFF));
    }
  }
}
