package phrasecensus.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.apache.hadoop.conf.Configuration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.tables.FileList;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Sha256;

class StudyVerificationTest {
  private static final String TABLE = "tables/" + OneRowStudy.TABLE + "/" + OneRowStudy.PART;

  @TempDir private Path temporary;

  private Path study(String manner) throws IOException {
    Path folder = temporary.resolve("study");
    Configuration configuration = StudyFolder.configuration();
    configuration.set(StudyPlaces.SETTING, manner);
    try (StudyFolder study = StudyFolder.forWriting(folder.toString(), configuration)) {
      study.commit(OneRowStudy.write(study, "first", configuration), OneRowStudy.pages("first"));
    }
    return folder;
  }

  private static List<String> differences(Path study) {
    return StudyVerification.of(study.toString(), StudyFolder.configuration()).differences();
  }

  @ParameterizedTest
  @ValueSource(strings = {"rename", "pointer"})
  void aStudyAsItWasWrittenHasNone(String manner) throws IOException {
    StudyVerification verification =
        StudyVerification.of(study(manner).toString(), StudyFolder.configuration());

    assertThat(verification.differences()).isEmpty();
    // A table, the manifest and their list; two pages and their list.
    assertThat(verification.files()).isEqualTo(6);
  }

  /** Every bit of every file of the two manners would take minutes: every 97th byte of each. */
  @ParameterizedTest
  @ValueSource(strings = {"rename", "pointer"})
  void aFlippedBitAnywhereIsFound(String manner) throws IOException {
    Path study = study(manner);
    List<Path> files;
    try (Stream<Path> found = Files.walk(study)) {
      files =
          found
              .filter(Files::isRegularFile)
              .filter(file -> !file.getFileName().toString().startsWith("current-"))
              // In this manner a folder's own marker says whose the folder is, not what it holds.
              .filter(file -> !file.toString().matches(".*/(generation|report)-[^/]*/\\.phr.*"))
              .filter(file -> !file.toString().contains("/parts/"))
              .toList();
    }
    for (Path file : files) {
      byte[] bytes = Files.readAllBytes(file);
      for (int i = 0; i < bytes.length; i += 97) {
        byte[] flipped = bytes.clone();
        flipped[i] ^= (byte) (1 << i % 8);
        Files.write(file, flipped);
        assertThat(differences(study)).as("%s, byte %d", file, i).isNotEmpty();
      }
      Files.write(file, bytes);
    }
    assertThat(differences(study)).isEmpty();
  }

  @Test
  void whatIsGoneIsNamed() throws IOException {
    Path study = study("rename");
    Files.delete(study.resolve("report/index.html"));
    Files.delete(study.resolve(TABLE));

    assertThat(differences(study))
        .contains(
            TABLE + " is gone, damaged or changed.",
            "report/index.html is gone, damaged or changed.");
  }

  @Test
  void aFileOfSomebodyElseAmongTheTablesIsNamed() throws IOException {
    Path study = study("rename");
    Files.writeString(study.resolve("tables/problems/mine.parquet"), "mine");
    Files.writeString(study.resolve("report/mine.txt"), "mine");

    assertThat(differences(study))
        .containsExactly("tables/problems/mine.parquet was put there by somebody else.");
  }

  @Test
  void aReportOfOtherTablesIsTold() throws IOException {
    Path study = study("rename");
    Configuration configuration = StudyFolder.configuration();
    try (StudyFolder folder = StudyFolder.forWriting(study.toString(), configuration)) {
      folder.commit(OneRowStudy.write(folder, "second", configuration));
    }

    assertThat(differences(study))
        .containsExactly(
            "The report is of other tables than these, as report/files.sha256 says. 'phrase-census"
                + " report' writes it anew.");
  }

  /** Whoever changes a table and makes its list anew is found by the digest of the rows. */
  @Test
  void rowsThatTheManifestDoesNotKnowAreFoundUnderAFittingList() throws IOException {
    Path study = study("rename");
    Path other = temporary.resolve("other");
    Configuration configuration = StudyFolder.configuration();
    try (StudyFolder folder = StudyFolder.forWriting(other.toString(), configuration)) {
      folder.commit(OneRowStudy.write(folder, "other", configuration));
    }
    Files.write(study.resolve(TABLE), Files.readAllBytes(other.resolve(TABLE)));
    Map<String, String> files = new TreeMap<>();
    for (String name : List.of(TABLE, "manifest.json")) {
      files.put(name, Sha256.of(Files.readAllBytes(study.resolve(name))));
    }
    Files.write(study.resolve(FileList.FILE_NAME), FileList.of(FileList.STUDY, files).bytes());

    assertThat(differences(study))
        .containsExactly("The rows of " + TABLE + " are not those of which the manifest tells.");
  }

  @Test
  void nothingIsChangedByLooking() throws IOException {
    Path study = study("rename");
    Map<Path, Object> before = new TreeMap<>();
    try (Stream<Path> found = Files.walk(study)) {
      for (Path path : found.toList()) {
        before.put(path, Files.getLastModifiedTime(path));
      }
    }

    differences(study);

    Map<Path, Object> after = new TreeMap<>();
    try (Stream<Path> found = Files.walk(study)) {
      for (Path path : found.toList()) {
        after.put(path, Files.getLastModifiedTime(path));
      }
    }
    assertThat(after).isEqualTo(before);
  }

  @Test
  void aFolderWithoutAStudyIsRefused() {
    assertThatThrownBy(() -> differences(temporary))
        .isInstanceOf(InputException.class)
        .hasMessage("Cannot verify " + temporary + ": it holds no finished study and no export.");
  }
}
