package phrasecensus.tables;

import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * Where people say that phrases begin: a CSV file with one row a phrase, a column that names the
 * score and a column {@code note_index} with the phrase's first note, counted from 0 over the
 * sounding notes of the line, tied notes once.
 */
public final class PhraseMarks {
  private static final String NOTE_COLUMN = "note_index";

  private final Map<String, TreeSet<Integer>> firstNotes;

  private PhraseMarks(Map<String, TreeSet<Integer>> firstNotes) {
    this.firstNotes = firstNotes;
  }

  /**
   * Reads the file.
   *
   * @param name how messages call it
   * @param key column that names the score, with or without extension
   * @throws InputException if a column is missing or a note is no whole number; with the row
   */
  public static PhraseMarks read(String name, byte[] bytes, String key) {
    CSVFormat format =
        CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).setTrim(true).get();
    String text = new String(bytes, StandardCharsets.UTF_8);
    try (CSVParser parser = CSVParser.parse(new StringReader(text), format)) {
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
      Map<String, TreeSet<Integer>> firstNotes = new TreeMap<>();
      for (CSVRecord record : parser) {
        String note = record.get(NOTE_COLUMN);
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
        firstNotes
            .computeIfAbsent(Metadata.withoutExtension(record.get(key)), k -> new TreeSet<>())
            .add(Integer.parseInt(note));
      }
      return new PhraseMarks(firstNotes);
    } catch (IOException | IllegalArgumentException | IllegalStateException e) {
      throw new InputException(
          "Cannot read the phrase marks " + name + ": " + e.getMessage() + ".", e);
    }
  }

  /**
   * The first notes of the phrases of a score, ascending.
   *
   * @param file path of the score
   * @return empty when the file says nothing about it
   */
  public Optional<List<Integer>> of(String file) {
    TreeSet<Integer> notes = firstNotes.get(Metadata.withoutExtension(file));
    return Optional.ofNullable(notes).map(ArrayList::new);
  }
}
