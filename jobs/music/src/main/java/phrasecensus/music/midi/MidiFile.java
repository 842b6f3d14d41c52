package phrasecensus.music.midi;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import phrasecensus.music.time.Fraction;

/**
 * Writes a line as a Standard MIDI File (MIDI Manufacturers Association, Standard MIDI Files 1.0,
 * 1996), 480 ticks to the quarter note: alone in format 0, with parts beside it in format 1.
 * Lengths that are no whole number of ticks are rounded.
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

  /**
   * A time signature.
   *
   * @param onset in quarter notes from the start
   * @param beats upper number, 1 to 255
   * @param beatType lower number; a power of two, others are left out
   */
  public record Signature(Fraction onset, int beats, int beatType) {}

  /**
   * Words at a moment, as where a phrase begins.
   *
   * @param onset in quarter notes from the start
   */
  public record Marker(Fraction onset, String text) {}

  /**
   * A part beside the line, on a track of its own.
   *
   * @param name of its track
   * @param channel 1 to 15; the line has 0
   * @param program General MIDI program, 0 to 127
   * @param velocity 1 to 127
   */
  public record Part(String name, int channel, int program, int velocity, List<Sound> sounds) {
    public Part {
      sounds = List.copyOf(sounds);
    }
  }

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
    return of(title, program, tempi, List.of(), List.of(), sounds, List.of(), feel);
  }

  /**
   * The file of a line with other parts; tempi, signatures and markers stand on the track of the
   * line, which is the first.
   *
   * @param title name of the line's track
   * @param program General MIDI program of the line, 0 to 127
   * @param tempi in order; empty for 120 quarters a minute
   * @param signatures in order; empty for 4/4
   * @param parts each on its own channel
   */
  public static byte[] of(
      String title,
      int program,
      List<Tempo> tempi,
      List<Signature> signatures,
      List<Marker> markers,
      List<Sound> sounds,
      List<Part> parts,
      Feel feel) {
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
    for (Signature signature : signatures) {
      int power = Integer.numberOfTrailingZeros(signature.beatType());
      if (signature.beatType() > 0 && signature.beatType() == 1 << power) {
        events.add(
            meta(
                tick(signature.onset(), Feel.STRAIGHT),
                0x58,
                new byte[] {(byte) signature.beats(), (byte) power, 24, 8}));
      }
    }
    for (Marker marker : markers) {
      events.add(
          meta(
              tick(marker.onset(), Feel.STRAIGHT),
              0x06,
              marker.text().getBytes(StandardCharsets.UTF_8)));
    }
    addSounds(events, new Part(title, 0, program, VELOCITY, sounds), feel);
    ByteArrayOutputStream file = new ByteArrayOutputStream();
    file.writeBytes("MThd".getBytes(StandardCharsets.US_ASCII));
    writeNumber(file, 6, 4);
    writeNumber(file, parts.isEmpty() ? 0 : 1, 2);
    writeNumber(file, 1 + parts.size(), 2);
    writeNumber(file, TICKS, 2);
    writeTrack(file, events);
    for (Part part : parts) {
      List<Event> own = new ArrayList<>();
      own.add(meta(0, 0x03, part.name().getBytes(StandardCharsets.UTF_8)));
      addSounds(own, part, feel);
      writeTrack(file, own);
    }
    return file.toByteArray();
  }

  private static void addSounds(List<Event> events, Part part, Feel feel) {
    int channel = part.channel();
    events.add(
        new Event(0, 1, new byte[] {(byte) (CHANNEL_PROGRAM + channel), (byte) part.program()}));
    for (Sound sound : part.sounds()) {
      if (sound.midi() < 0 || sound.midi() > 127) {
        continue;
      }
      long from = tick(sound.onset(), feel);
      long to = Math.max(from + 1, tick(sound.onset().plus(sound.length()), feel));
      events.add(channel(from, 3, CHANNEL_NOTE_ON + channel, sound.midi(), part.velocity()));
      events.add(channel(to, 2, CHANNEL_NOTE_OFF + channel, sound.midi(), 0));
    }
  }

  private static void writeTrack(ByteArrayOutputStream file, List<Event> events) {
    events.sort(Comparator.comparingLong(Event::tick).thenComparingInt(Event::rank));
    ByteArrayOutputStream track = new ByteArrayOutputStream();
    long at = 0;
    for (Event event : events) {
      writeLength(track, event.tick() - at);
      track.writeBytes(event.bytes());
      at = event.tick();
    }
    track.writeBytes(new byte[] {0, (byte) 0xFF, 0x2F, 0});
    file.writeBytes("MTrk".getBytes(StandardCharsets.US_ASCII));
    writeNumber(file, track.size(), 4);
    file.writeBytes(track.toByteArray());
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
