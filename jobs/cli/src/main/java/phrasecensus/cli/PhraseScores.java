package phrasecensus.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.phrase.BoundaryAgreement;
import phrasecensus.music.phrase.BoundaryAgreement.FirstNote;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;
import phrasecensus.tables.InputException;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.export.CsvTable;

/** How far a rule agrees with people in each score, as a CSV file. */
final class PhraseScores {
  private static final TableSchema SCHEMA = schema();

  private final List<TableRow> rows = new ArrayList<>();

  /** How far apart two boundaries may lie and still agree. */
  enum Tolerance {
    EXACT("exact", "exact"),
    ONE_NOTE("one-note", "within one note"),
    HALF_A_BEAT("half-a-beat", "within half a beat");

    private final String word;
    private final String words;

    Tolerance(String word, String words) {
      this.word = word;
      this.words = words;
    }

    /** As a sentence has it. */
    String words() {
      return words;
    }

    BoundaryAgreement agreement(
        List<Integer> truth, List<Integer> found, Solo solo, FirstNote firstNote) {
      int notes = solo.notes().size();
      return switch (this) {
        case EXACT -> BoundaryAgreement.exact(truth, found, notes, firstNote);
        case ONE_NOTE -> BoundaryAgreement.withinNotes(truth, found, notes, 1, firstNote);
        case HALF_A_BEAT ->
            BoundaryAgreement.withinBeats(truth, found, solo, Fraction.HALF, firstNote);
      };
    }
  }

  private static TableSchema schema() {
    try (InputStream stream = PhraseScores.class.getResourceAsStream("phrase_scores.json")) {
      return TableSchema.parse(new String(stream.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException("Cannot read phrase_scores.json: " + e.getMessage(), e);
    }
  }

  void add(String file, FirstNote firstNote, Tolerance tolerance, BoundaryAgreement agreement) {
    BoundaryAgreement.Scores scores = agreement.scores();
    rows.add(
        TableRow.of(
            SCHEMA,
            new Object[] {
              file,
              firstNote == FirstNote.COUNTED ? "counted" : "not-counted",
              tolerance.word,
              agreement.trueBoundaries(),
              agreement.foundBoundaries(),
              agreement.matched(),
              agreement.places(),
              scores.precision(),
              scores.recall(),
              scores.f1(),
              scores.kappa()
            }));
  }

  /**
   * Writes the file.
   *
   * @throws InputException if it cannot be written
   */
  void write(Path file) {
    try (Writer writer = Files.newBufferedWriter(file)) {
      CsvTable table = new CsvTable(SCHEMA, writer);
      for (TableRow row : rows) {
        table.write(row);
      }
    } catch (IOException e) {
      throw new InputException(
          "Cannot write " + file + ": its folder is missing, or may not be written into.", e);
    }
  }
}
