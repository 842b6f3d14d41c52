package phrasecensus.readers.musicxml;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SoloReader;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter.Annotations;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter.PhraseSpan;

/**
 * Writes annotated copies of scores, to be opened in a notation program and compared afterwards.
 *
 * <p>Arguments: {@code write FOLDER FILE…} writes a copy of each file; {@code compare FIRST SECOND}
 * says whether two files hold the same notes and chords.
 */
public final class AnnotatedCopies {
  private AnnotatedCopies() {}

  public static void main(String[] arguments) throws IOException {
    if (arguments[0].equals("compare")) {
      List<String> first = music(solo(Path.of(arguments[1])));
      List<String> second = music(solo(Path.of(arguments[2])));
      boolean same = first.equals(second);
      System.out.println((same ? "same music: " : "different music: ") + arguments[2]);
      for (int i = 0; !same && i < Math.min(first.size(), second.size()); i++) {
        if (!first.get(i).equals(second.get(i))) {
          System.out.println("  " + first.get(i) + " against " + second.get(i));
          break;
        }
      }
      System.exit(same ? 0 : 1);
    }
    Path folder = Files.createDirectories(Path.of(arguments[1]));
    for (int i = 2; i < arguments.length; i++) {
      Path file = Path.of(arguments[i]);
      String name = file.getFileName().toString().replaceFirst("\\.[a-z]+$", "");
      Files.write(folder.resolve(name + ".musicxml"), annotated(solo(file)));
    }
  }

  private static Solo solo(Path file) throws IOException {
    ReadResult result =
        SoloReader.read(
            Files.readAllBytes(file), file.getFileName().toString(), ReadSettings.defaults());
    if (!result.isRead()) {
      throw new IllegalArgumentException("Cannot read " + file + ": " + result.reason());
    }
    return result.solo();
  }

  /** A copy with a bracket over each run of notes without a rest of a quarter note. */
  private static byte[] annotated(Solo solo) {
    List<PhraseSpan> phrases = new ArrayList<>();
    Map<Integer, String> labels = new HashMap<>();
    Set<Integer> marked = new HashSet<>();
    int first = 0;
    for (Note note : solo.notes()) {
      int next = note.index() + 1;
      boolean ends =
          next == solo.notes().size()
              || solo.notes().get(next).onset().minus(note.end()).isAtLeast(Fraction.ONE);
      if (ends) {
        phrases.add(new PhraseSpan(first, note.index()));
        solo.chordAt(note.onset())
            .flatMap(span -> span.concert().degreeOf(note.concert()))
            .ifPresent(degree -> labels.put(note.index(), degree.name()));
        first = next;
      }
      if (note.index() % 7 == 3) {
        marked.add(note.index());
      }
    }
    return AnnotatedScoreWriter.document(solo, new Annotations(phrases, labels, marked));
  }

  private static List<String> music(Solo solo) {
    List<String> music = new ArrayList<>();
    solo.notes().forEach(note -> music.add(note.onset() + " " + note.length() + " " + note.midi()));
    solo.chords()
        .forEach(span -> music.add("chord " + span.onset() + " " + span.concert().pitchClasses()));
    return music;
  }
}
