package phrasecensus.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.apache.hadoop.conf.Configuration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.tables.InputException;
import phrasecensus.tables.InputFile;

@Timeout(value = 1, unit = TimeUnit.MINUTES)
class InputListingTest {
  @TempDir private Path folder;
  private final Configuration configuration = new Configuration();

  /** What POSIX allows in a name: every byte but zero and the slash. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "Take: one.musicxml",
        "C:.musicxml",
        "A: b.mxl",
        "Where or when?.musicxml",
        "100% ready.musicxml",
        "%41.xml",
        "Etude #3.musicxml",
        "a+b.musicxml",
        "-dash first.musicxml",
        "back\\slash.musicxml",
        "two\nlines.musicxml",
        "tab\there.musicxml",
        "Cafe\u0301.musicxml",
        "\uD83C\uDFB7.musicxml",
        "{A,B} [c] * $HOME `x` \"y\" 'z' <i>.musicxml",
        " leading.musicxml",
        "trailing.musicxml ",
        "dot.musicxml."
      })
  void anyNameIsListedAsItStandsAndOpened(String name) throws IOException {
    Files.writeString(folder.resolve(name), "content of " + name);

    List<InputFile> files = listed(folder);

    assertThat(files).extracting(InputFile::file).containsExactly(name);
    assertThat(content(files.get(0))).isEqualTo("content of " + name);
  }

  @ParameterizedTest
  @ValueSource(strings = {"a: b", "x:y:z", "what? #1", "50%", "line\nbreak", "C:"})
  void anyNameOfAFolderWillDo(String name) throws IOException {
    Path odd = Files.createDirectories(folder.resolve(name).resolve("in: side"));
    Files.writeString(odd.resolve("a.xml"), "inside");

    List<InputFile> files = listed(folder.resolve(name));

    assertThat(files).extracting(InputFile::file).containsExactly("in: side/a.xml");
    assertThat(content(files.get(0))).isEqualTo("inside");
  }

  @Test
  void relativePathWithAColonIsAPathAndNoAddress() {
    assertThat(InputPaths.of("re:l/corpus").toUri().getPath()).isEqualTo("./re:l/corpus");
    assertThat(InputPaths.of("hdfs://host/corpus").toUri().getScheme()).isEqualTo("hdfs");
  }

  @Test
  void namesThatAreNoUnicodeAreToldEach() throws Exception {
    assumeTrue("UTF-8".equals(System.getProperty("sun.jnu.encoding")), "names are not UTF-8 here");
    // Java cannot make such names; bash can.
    Process made =
        new ProcessBuilder("bash", "-c", "printf x >$'bad\\xff.xml'; printf y >$'bad\\xfe.xml'")
            .directory(folder.toFile())
            .start();
    assertThat(made.waitFor()).isZero();

    assertThat(listed(folder))
        .hasSize(2)
        .allSatisfy(file -> assertThat(file.refusal()).contains("its name is not valid Unicode"))
        .extracting(InputFile::file)
        .doesNotHaveDuplicates();
  }

  @ParameterizedTest
  @ValueSource(strings = {"x.musicxml", "x.mxl", "x.zip"})
  void pipeIsToldAndNeverOpened(String name) throws Exception {
    pipe(folder.resolve(name));

    assertThat(listed(folder))
        .singleElement()
        .satisfies(
            file -> {
              assertThat(file.file()).isEqualTo(name);
              assertThat(file.refusal())
                  .isEqualTo(
                      "The file is not opened: it is a pipe, a socket or a device, which may never"
                          + " come to an end.");
            });
  }

  @Test
  void linkToADeviceIsToldAndNeverOpened() throws IOException {
    Files.createSymbolicLink(folder.resolve("zero.musicxml"), Path.of("/dev/zero"));

    assertThat(listed(folder).get(0).refusal()).contains("a device");
  }

  @Test
  void fileThatBecameAPipeIsNotOpened() throws Exception {
    Path file = Files.writeString(folder.resolve("a.xml"), "x");
    InputFile listed = listed(folder).get(0);
    Files.delete(file);
    pipe(file);

    assertThatThrownBy(() -> content(listed)).hasMessageContaining("a pipe");
  }

  @Test
  void pipeIsNoCorpus() throws Exception {
    pipe(folder.resolve("x.zip"));

    assertThatThrownBy(() -> listed(folder.resolve("x.zip")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("it is a pipe, a socket or a device");
  }

  private static void pipe(Path path) throws Exception {
    Process made = new ProcessBuilder("mkfifo", path.toString()).start();
    assertThat(made.waitFor()).isZero();
  }

  private List<InputFile> listed(Path corpus) {
    return InputListing.scores("corpus", corpus.toString(), List.of(), configuration);
  }

  private String content(InputFile file) throws IOException {
    try (InputBytes bytes = new InputBytes(1 << 20, 100, configuration)) {
      return new String(bytes.of(file), StandardCharsets.UTF_8);
    }
  }
}
