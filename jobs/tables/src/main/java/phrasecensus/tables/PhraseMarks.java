package phrasecensus.tables;

import java.io.IOException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * Where people say that phrases begin: a CSV file with one row a phrase, a column that names the
 * score and a column {@code note_index} with the phrase's first note, counted from 0 over the
 * sounding notes of the line, tied notes once. Comma, semicolon or tab between the columns.
 */
public final class PhraseMarks implements Serializable {
  private static final long serialVersionUID = 1L;

  /** Marks for no score at all. */
  public static final PhraseMarks NONE = new PhraseMarks(new TreeMap<>());

  /** The column that names the score unless another is said to. */
  public static final String USUAL_KEY = "file";

  private static final String NOTE_COLUMN = "note_index";

  private final TreeMap<String, ArrayList<Integer>> firstNotes;

  private PhraseMarks(TreeMap<String, ArrayList<Integer>> firstNotes) {
    this.firstNotes = firstNotes;
  }

  /**
   * Reads the file.
   *
   * @param name how messages call it
   * @param key column that names the score, by its path in the folder with or without extension
   * @throws InputException if a column is missing or a note is no whole number; with the row
   */
  public static PhraseMarks read(String name, byte[] bytes, String key) {
    DelimitedText text = DelimitedText.of("phrase marks " + name, bytes, "", "", new ArrayList<>());
    try (CSVParser parser = text.parser()) {
      for (String column : List.of(key, NOTE_COLUMN)) {
        if (!parser.getHeaderNames().contains(column)) {
          throw new InputException(
              "Cannot use the phrase marks "
                  + name
                  + ": there is no column '"
                  + column
                  + "'. Its columns: "
                  + String.join(", ", parser.getHeaderNames())
                  + ".");
        }
      }
      TreeMap<String, ArrayList<Integer>> firstNotes = new TreeMap<>();
      for (CSVRecord record : parser) {
        String note = record.isSet(NOTE_COLUMN) ? record.get(NOTE_COLUMN) : "";
        if (!note.matches("\\d{1,9}")) {
          throw new InputException(
              "Cannot use the phrase marks "
                  + name
                  + ": row "
                  + (record.getRecordNumber() + 1)
                  + " has the note '"
                  + note
                  + "'. Count notes from 0.");
        }
        String score = record.isSet(key) ? record.get(key).replace('\\', '/') : "";
        firstNotes
            .computeIfAbsent(Metadata.withoutExtension(score), k -> new ArrayList<>())
            .add(Integer.valueOf(note));
      }
      return new PhraseMarks(firstNotes);
    } catch (IOException | UncheckedIOException | IllegalStateException e) {
      throw new InputException(
          "Cannot read the phrase marks " + name + ": " + e.getMessage() + ".", e);
    }
  }

  /**
   * The first notes of the phrases of a score, ascending, each once.
   *
   * @param file path of the score
   * @return empty when the file says nothing about it
   */
  public Optional<List<Integer>> of(String file) {
    return asWritten(file).map(notes -> List.copyOf(new TreeSet<>(notes)));
  }

  /**
   * The first notes of the phrases of a score as they stand in the file: perhaps more than once, or
   * not in order.
   *
   * @param file path of the score
   * @return empty when the file says nothing about it
   */
  public Optional<List<Integer>> asWritten(String file) {
    return Optional.ofNullable(firstNotes.get(Metadata.withoutExtension(file))).map(List::copyOf);
  }

  /** Scores that the file speaks of, and that are none of the given ones. */
  public List<String> scoresBeyond(Collection<String> files) {
    TreeSet<String> left = new TreeSet<>(firstNotes.keySet());
    files.forEach(file -> left.remove(Metadata.withoutExtension(file)));
    return List.copyOf(left);
  }

  /** How many scores the file speaks of. */
  public int size() {
    return firstNotes.size();
  }
}
