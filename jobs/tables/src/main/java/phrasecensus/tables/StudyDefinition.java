package phrasecensus.tables;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * One run as its author wants it: inputs, groups and settings. Folders are paths or Hadoop
 * addresses; relative paths of a study file count from the file's own folder.
 *
 * @param name short name, as in a file name
 * @param title for people
 * @param description may be empty
 * @param data the data set that the corpus is, with its licence
 * @param publication how the tables are to be cited
 * @param corpus folder of the corpus; empty for lessons without one
 * @param students folder of the students' solos; empty for none
 * @param metadata of the corpus
 * @param studentMetadata of the students
 * @param only which scores of the corpus it is about, by their metadata
 * @param studentOnly which of the students' solos
 * @param fileNames what the names of students' files say, as {@link FileNamePattern} takes it
 * @param phraseMarks where people say that phrases begin, instead of a rule; not named for none
 * @param by what groups the norms, each as {@link Grouping#text} writes it
 * @param reference name of the grouping whose groups students are held against first, or {@code
 *     all}; empty for the narrowest group of each solo that has enough solos
 * @param settings what reading depends on
 * @param aims what the study asks of its students
 * @param queries phrases to look for in the finished study, by name
 * @param patterns true to index recurring figures and show them in the report
 * @param into study folder that is written
 * @param excerpts true to show the notes of phrases in the report
 * @param pseudonyms true to replace students' names by codes in the report
 * @param expected file with the results that the study is expected to have; empty for none
 */
public record StudyDefinition(
    String name,
    String title,
    String description,
    DataSource data,
    Publication publication,
    String corpus,
    String students,
    MetadataDefinition metadata,
    MetadataDefinition studentMetadata,
    MetadataChoice only,
    MetadataChoice studentOnly,
    String fileNames,
    MetadataDefinition phraseMarks,
    List<String> by,
    String reference,
    StudySettings settings,
    AimsDefinition aims,
    Map<String, PhraseQuery> queries,
    boolean patterns,
    String into,
    boolean excerpts,
    boolean pseudonyms,
    String expected) {

  /** In bytes; the longest that people wrote have some thousand. */
  private static final long LARGEST_STUDY_FILE = 1L << 20;

  private static final List<String> KEYS =
      List.of(
          "name",
          "title",
          "description",
          "data",
          "authors",
          "version",
          "date",
          "doi",
          "licence",
          "corpus",
          "students",
          "metadata",
          "student-metadata",
          "only",
          "student-only",
          "file-names",
          "phrase-marks",
          "by",
          "reference",
          "key",
          "settings",
          "aims",
          "queries",
          "patterns",
          "into",
          "report",
          "expected");
  private static final List<String> DATA_KEYS = List.of("name", "licence", "citation", "address");
  private static final List<String> METADATA_KEYS =
      List.of("file", "key", "columns", "types", "delimiter", "encoding");
  private static final List<String> MARKS_KEYS = List.of("file", "key");
  private static final List<String> SETTING_KEYS =
      List.of(
          "phrase-rule",
          "phrase-rule-settings",
          "sensitivity",
          "anticipation",
          "as-played",
          "even-eighths",
          "keep-slash-noteheads",
          "part",
          "limits",
          "key");
  private static final List<String> BOUND_KEYS = List.of("from", "to");
  private static final List<String> QUERY_KEYS = List.of("title", "where");
  private static final List<String> REPORT_KEYS = List.of("excerpts", "pseudonyms");

  public StudyDefinition {
    by = List.copyOf(by);
    queries = Collections.unmodifiableMap(new LinkedHashMap<>(queries));
  }

  /** A study of students' solos alone, without a corpus or a study file. */
  public static StudyDefinition ofStudents(String students) {
    StudyDefinition study = ofFolder("", "").comparing(students);
    String name = name(students);
    return new StudyDefinition(
        name,
        "Lessons of " + name,
        study.description,
        study.data,
        study.publication,
        "",
        students,
        study.metadata,
        study.studentMetadata,
        study.only,
        study.studentOnly,
        study.fileNames,
        study.phraseMarks,
        study.by,
        study.reference,
        study.settings,
        study.aims,
        study.queries,
        study.patterns,
        "",
        study.excerpts,
        study.pseudonyms,
        study.expected);
  }

  /** The last part of a folder's path. */
  private static String name(String folder) {
    String name = folder.replaceAll("[/\\\\]+$", "").replaceAll(".*[/\\\\]", "");
    return name.isEmpty() || name.equals(".") || name.equals("..") ? "corpus" : name;
  }

  /** A study of a corpus folder without a study file, everything else at its default. */
  public static StudyDefinition ofFolder(String corpus, String into) {
    String name = name(corpus);
    return new StudyDefinition(
        name,
        "A census of " + name,
        "",
        DataSource.NOT_STATED,
        Publication.NOT_STATED,
        corpus,
        "",
        MetadataDefinition.DEFAULT,
        MetadataDefinition.DEFAULT,
        MetadataChoice.ALL,
        MetadataChoice.ALL,
        FileNamePattern.USUAL,
        MetadataDefinition.DEFAULT,
        List.of(),
        "",
        StudySettings.defaults(),
        AimsDefinition.DEFAULT,
        Map.of(),
        false,
        into,
        true,
        false,
        "");
  }

  /**
   * Reads a study file.
   *
   * @throws InputException naming the file, what is wrong and what is allowed
   */
  public static StudyDefinition read(Path file) {
    JsonNode root = YamlText.root("study file " + file, text(file));
    if (root == null || !root.isObject()) {
      throw new InputException(
          "Cannot use the study file "
              + file
              + ": it has no keys. It needs at least 'corpus: FOLDER'.");
    }
    return new Reading(file).definition(root);
  }

  private static String text(Path file) {
    try {
      String text =
          StandardCharsets.UTF_8
              .newDecoder()
              .onMalformedInput(CodingErrorAction.REPORT)
              .decode(
                  ByteBuffer.wrap(
                      NamedFile.bytes(
                          "Cannot read the study file " + file, file, LARGEST_STUDY_FILE)))
              .toString();
      return text.startsWith("\uFEFF") ? text.substring(1) : text;
    } catch (NoSuchFileException e) {
      throw new InputException("Cannot read the study file " + file + ": no such file.", e);
    } catch (CharacterCodingException e) {
      throw new InputException(
          "Cannot read the study file " + file + ": it is not text in UTF-8. Save it as UTF-8.", e);
    } catch (IOException e) {
      throw new InputException(
          "Cannot read the study file " + file + ": it may not be read. Check its permissions.", e);
    }
  }

  /** The same study with other metadata of the corpus. */
  public StudyDefinition describedBy(MetadataDefinition other) {
    return with(corpus, students, other, phraseMarks, by, settings, into, only, studentOnly);
  }

  /** The same study with phrase marks. */
  public StudyDefinition markedBy(MetadataDefinition marks) {
    return with(corpus, students, metadata, marks, by, settings, into, only, studentOnly);
  }

  /** The same study with other groups. */
  public StudyDefinition groupedBy(List<String> columns) {
    return with(
        corpus, students, metadata, phraseMarks, columns, settings, into, only, studentOnly);
  }

  /** The same study written to another folder. */
  public StudyDefinition writtenInto(String folder) {
    return with(corpus, students, metadata, phraseMarks, by, settings, folder, only, studentOnly);
  }

  /** The same study with a students' folder. */
  public StudyDefinition comparing(String studentsFolder) {
    return with(
        corpus, studentsFolder, metadata, phraseMarks, by, settings, into, only, studentOnly);
  }

  /** The same study of some of its scores. */
  public StudyDefinition choosing(MetadataChoice ofCorpus, MetadataChoice ofStudents) {
    return with(corpus, students, metadata, phraseMarks, by, settings, into, ofCorpus, ofStudents);
  }

  /** The same study of the same corpus in another place. */
  public StudyDefinition readFrom(String corpusFolder) {
    return with(
        corpusFolder, students, metadata, phraseMarks, by, settings, into, only, studentOnly);
  }

  /** The same study with other settings of reading. */
  public StudyDefinition readWith(StudySettings other) {
    return with(corpus, students, metadata, phraseMarks, by, other, into, only, studentOnly);
  }

  /** The same study with an index of recurring figures. */
  public StudyDefinition withPatterns() {
    return new StudyDefinition(
        name,
        title,
        description,
        data,
        publication,
        corpus,
        students,
        metadata,
        studentMetadata,
        only,
        studentOnly,
        fileNames,
        phraseMarks,
        by,
        reference,
        settings,
        aims,
        queries,
        true,
        into,
        excerpts,
        pseudonyms,
        expected);
  }

  private StudyDefinition with(
      String otherCorpus,
      String otherStudents,
      MetadataDefinition otherMetadata,
      MetadataDefinition otherMarks,
      List<String> otherColumns,
      StudySettings otherSettings,
      String otherFolder,
      MetadataChoice otherOnly,
      MetadataChoice otherStudentOnly) {
    return new StudyDefinition(
        name,
        title,
        description,
        data,
        publication,
        otherCorpus,
        otherStudents,
        otherMetadata,
        studentMetadata,
        otherOnly,
        otherStudentOnly,
        fileNames,
        otherMarks,
        otherColumns,
        reference,
        otherSettings,
        aims,
        queries,
        patterns,
        otherFolder,
        excerpts,
        pseudonyms,
        expected);
  }

  private record Reading(Path file) {
    StudyDefinition definition(JsonNode root) {
      allow(root, "", KEYS);
      if (!root.hasNonNull("corpus") && !root.hasNonNull("students")) {
        throw unusable(
            "it names no corpus. Add a line 'corpus: FOLDER', or 'students: FOLDER' for lessons"
                + " without one.");
      }
      String fileName = String.valueOf(file.getFileName());
      String name = text(root, "name", fileName.replaceAll("\\.[^.]*$", ""));
      if (!name.matches("[\\p{L}\\p{N}][\\p{L}\\p{N} ._-]*")) {
        throw unusable("'name' is '" + name + "'; use letters, digits, spaces, dots and hyphens.");
      }
      JsonNode settings = map(root, "settings", SETTING_KEYS);
      JsonNode report = map(root, "report", REPORT_KEYS);
      StudySettings defaults = StudySettings.defaults();
      return new StudyDefinition(
          name,
          text(root, "title", name),
          text(root, "description", "").strip(),
          data(map(root, "data", DATA_KEYS)),
          new PublicationReading(this::unusable).publication(root),
          root.hasNonNull("corpus") ? location(text(root, "corpus", "")) : "",
          root.hasNonNull("students") ? location(text(root, "students", "")) : "",
          metadata(root, "metadata"),
          metadata(root, "student-metadata"),
          choice(root, "only"),
          choice(root, "student-only"),
          fileNames(root),
          phraseMarks(root),
          groupings(root),
          text(root, "reference", "").strip(),
          new StudySettings(
              text(settings, "phrase-rule", defaults.phraseRule()),
              values(settings, "phrase-rule-settings"),
              flag(settings, "anticipation", defaults.anticipation()),
              flag(settings, "as-played", defaults.asPlayed()),
              flag(settings, "even-eighths", defaults.evenEighths()),
              flag(settings, "keep-slash-noteheads", defaults.keepSlashNoteheads()),
              text(settings, "part", defaults.part()),
              list(settings, "sensitivity", "phrase rules, as in 'sensitivity: [silence, breath]'"),
              values(settings, "limits"),
              key(root, settings)),
          new AimsReading(this::unusable).aims(root.path("aims")),
          queries(root.path("queries")),
          flag(root, "patterns", false),
          location(text(root, "into", name + "-study")),
          flag(report, "excerpts", true),
          flag(report, "pseudonyms", false),
          root.hasNonNull("expected") ? location(text(root, "expected", "")) : "");
    }

    /** Queries by name, each a list of conditions, or such a list with a title. */
    private Map<String, PhraseQuery> queries(JsonNode node) {
      Map<String, PhraseQuery> queries = new LinkedHashMap<>();
      if (node.isMissingNode() || node.isNull()) {
        return queries;
      }
      if (!node.isObject()) {
        throw unusable("'queries' must hold a name and conditions in every line.");
      }
      node.properties()
          .forEach(
              each -> {
                JsonNode query = each.getValue();
                JsonNode where = query.isObject() ? query.path("where") : query;
                if (query.isObject()) {
                  allow(query, each.getKey(), QUERY_KEYS);
                }
                List<String> conditions = new ArrayList<>();
                where.forEach(condition -> conditions.add(condition.asText()));
                if (!where.isArray() || conditions.isEmpty()) {
                  throw unusable(
                      "the query '"
                          + each.getKey()
                          + "' has no conditions. Write it as '[bars 2, last-note 3]'.");
                }
                try {
                  queries.put(
                      each.getKey(), PhraseQuery.of(text(query, "title", "").strip(), conditions));
                } catch (InputException e) {
                  throw unusable("the query '" + each.getKey() + "': " + e.getMessage());
                }
              });
      return queries;
    }

    private DataSource data(JsonNode data) {
      return new DataSource(
          text(data, "name", "").strip(),
          text(data, "licence", "").strip(),
          text(data, "citation", "").strip(),
          text(data, "address", "").strip());
    }

    private InputException unusable(String why) {
      return new InputException("Cannot use the study file " + file + ": " + why);
    }

    private void allow(JsonNode node, String where, List<String> keys) {
      for (Iterator<String> names = node.fieldNames(); names.hasNext(); ) {
        String key = names.next();
        if (!keys.contains(key)) {
          throw unusable(
              "unknown key '"
                  + key
                  + "'"
                  + (where.isEmpty() ? "" : " under '" + where + "'")
                  + ". Did you mean '"
                  + nearest(key, keys)
                  + "'? Known keys: "
                  + String.join(", ", keys)
                  + ".");
        }
      }
    }

    private JsonNode map(JsonNode root, String key, List<String> keys) {
      JsonNode node = root.path(key);
      if (node.isNull() || node.isMissingNode()) {
        return YAMLMapper.builder().build().createObjectNode();
      }
      if (!node.isObject()) {
        throw unusable("'" + key + "' must hold 'name: value' lines.");
      }
      allow(node, key, keys);
      return node;
    }

    /** Names and values of the reader's or a rule's own choosing, as written. */
    private Map<String, String> values(JsonNode settings, String key) {
      JsonNode node = settings.path(key);
      Map<String, String> values = new LinkedHashMap<>();
      if (node.isMissingNode() || node.isNull()) {
        return values;
      }
      if (!node.isObject()
          || node.properties().stream().anyMatch(e -> !e.getValue().isValueNode())) {
        throw unusable("'" + key + "' must hold 'name: value' lines.");
      }
      node.properties().forEach(each -> values.put(each.getKey(), each.getValue().asText()));
      return values;
    }

    private String text(JsonNode node, String key, String otherwise) {
      JsonNode value = node.path(key);
      if (value.isMissingNode() || value.isNull()) {
        return otherwise;
      }
      if (!value.isValueNode()) {
        throw unusable("'" + key + "' must be a single value.");
      }
      return value.asText();
    }

    private boolean flag(JsonNode node, String key, boolean otherwise) {
      JsonNode value = node.path(key);
      if (value.isMissingNode() || value.isNull()) {
        return otherwise;
      }
      if (!value.isBoolean()) {
        throw unusable("'" + key + "' is '" + value.asText() + "'; use true or false.");
      }
      return value.booleanValue();
    }

    private MetadataDefinition metadata(JsonNode root, String key) {
      if (!root.hasNonNull(key)) {
        return MetadataDefinition.DEFAULT;
      }
      if (root.path(key).isTextual()) {
        return new MetadataDefinition(location(root.path(key).textValue()), "");
      }
      JsonNode node = map(root, key, METADATA_KEYS);
      String named = text(node, "file", "");
      return new MetadataDefinition(
          named.isEmpty() ? "" : location(named),
          text(node, "key", ""),
          values(node, "columns"),
          types(node),
          oneOf(node, "delimiter", MetadataDefinition.DELIMITERS),
          oneOf(node, "encoding", MetadataDefinition.ENCODINGS));
    }

    /** What the cells of columns are, by the columns' names in the study. */
    private Map<String, MetadataType> types(JsonNode node) {
      Map<String, MetadataType> types = new LinkedHashMap<>();
      values(node, "types")
          .forEach(
              (name, word) -> {
                String column = Metadata.columnName(name);
                MetadataType type = MetadataType.named(word);
                if (type == null) {
                  throw unusable(
                      "the column '"
                          + name
                          + "' under 'types' is '"
                          + word
                          + "'; use one of "
                          + String.join(", ", MetadataType.words())
                          + ".");
                }
                if (Metadata.FILLING.contains(column)) {
                  throw unusable(
                      "the column '"
                          + name
                          + "' under 'types' has a meaning of its own, and its type with it. Take"
                          + " it out.");
                }
                types.put(column, type);
              });
      return types;
    }

    /** Columns and what they must hold: a value, a list of values, or bounds. */
    private MetadataChoice choice(JsonNode root, String key) {
      JsonNode node = root.path(key);
      if (node.isMissingNode() || node.isNull()) {
        return MetadataChoice.ALL;
      }
      if (!node.isObject()) {
        throw unusable(
            "'"
                + key
                + "' must hold columns of the metadata, as in '"
                + key
                + ": {style: [swing, bebop], year: {from: 1940, to: 1949}}'.");
      }
      Map<String, MetadataChoice.Wanted> wanted = new LinkedHashMap<>();
      node.properties()
          .forEach(
              each -> {
                JsonNode must = each.getValue();
                if (must.isObject()) {
                  allow(must, key + ": " + each.getKey(), BOUND_KEYS);
                }
                List<String> values = new ArrayList<>();
                if (must.isArray()) {
                  must.forEach(value -> values.add(value.asText()));
                } else if (!must.isObject()) {
                  values.add(must.isNull() ? "" : must.asText());
                }
                try {
                  wanted.put(
                      Metadata.columnName(each.getKey()),
                      new MetadataChoice.Wanted(
                          values, text(must, "from", ""), text(must, "to", "")));
                } catch (InputException e) {
                  throw unusable("'" + each.getKey() + "' under '" + key + "': " + e.getMessage());
                }
              });
      return new MetadataChoice(wanted);
    }

    private MetadataDefinition phraseMarks(JsonNode root) {
      if (root.path("phrase-marks").isObject()) {
        map(root, "phrase-marks", MARKS_KEYS);
      }
      return metadata(root, "phrase-marks");
    }

    private String fileNames(JsonNode root) {
      String pattern = text(root, "file-names", FileNamePattern.USUAL).strip();
      try {
        FileNamePattern.of(pattern);
      } catch (IllegalArgumentException e) {
        throw unusable(
            "'file-names' is '"
                + pattern
                + "': "
                + e.getMessage()
                + ". Write it as '"
                + FileNamePattern.USUAL
                + "', or 'none'.");
      }
      return pattern;
    }

    /** How the metadata column 'key' is meant, said beside the metadata or among the settings. */
    private String key(JsonNode root, JsonNode settings) {
      String beside = oneOf(root, "key", StudySettings.KEY_PITCHES);
      return beside.isEmpty() ? oneOf(settings, "key", StudySettings.KEY_PITCHES) : beside;
    }

    /** One of some words, or empty where nothing is said. */
    private String oneOf(JsonNode node, String key, List<String> words) {
      String word = text(node, key, "");
      if (!word.isEmpty() && !words.contains(word)) {
        throw unusable(
            "'" + key + "' is '" + word + "'; use one of " + String.join(", ", words) + ".");
      }
      return word;
    }

    private List<String> list(JsonNode root, String key, String what) {
      JsonNode node = root.path(key);
      List<String> values = new ArrayList<>();
      if (node.isTextual()) {
        for (String value : node.textValue().split(",")) {
          values.add(value.strip());
        }
      } else if (node.isArray()) {
        node.forEach(value -> values.add(value.asText().strip()));
      } else if (!node.isMissingNode() && !node.isNull()) {
        throw unusable("'" + key + "' must be a list of " + what + ".");
      }
      return values;
    }

    private List<String> groupings(JsonNode root) {
      JsonNode node = root.path("by");
      List<String> groupings = new ArrayList<>();
      if (node.isTextual()) {
        for (String grouping : node.textValue().split(",")) {
          groupings.add(grouping.strip());
        }
      } else if (node.isArray()) {
        node.forEach(each -> groupings.add(new Grouping(parts(each)).text()));
      } else if (!node.isMissingNode() && !node.isNull()) {
        throw unusableGroups();
      }
      return groupings;
    }

    /** A column's name, {@code {column: [edges]}}, or a list of these to be crossed. */
    private List<Grouping.Part> parts(JsonNode node) {
      if (node.isArray() && !node.isEmpty()) {
        List<Grouping.Part> parts = new ArrayList<>();
        node.forEach(each -> parts.addAll(parts(each)));
        return parts;
      }
      if (node.isObject() && node.size() == 1) {
        Map.Entry<String, JsonNode> banded = node.properties().iterator().next();
        if (!banded.getValue().isArray()) {
          throw unusableGroups();
        }
        List<BigDecimal> edges = new ArrayList<>();
        banded.getValue().forEach(edge -> edges.add(Grouping.edge(banded.getKey(), edge.asText())));
        if (edges.isEmpty()) {
          throw unusable("the bands of '" + banded.getKey() + "' have no edges.");
        }
        return List.of(new Grouping.Part(banded.getKey().strip(), edges));
      }
      if (!node.isValueNode()) {
        throw unusableGroups();
      }
      return Grouping.parse(node.asText()).parts();
    }

    private InputException unusableGroups() {
      return unusable(
          "'by' must be a list of columns, as in 'by: [style, instrument]'; bands of numbers are"
              + " written '{tempo_qpm: [0, 120, 180, 400]}', crossed columns '[style,"
              + " instrument]'.");
    }

    private String location(String given) {
      if (FileAddress.isOne(given) || Path.of(given).isAbsolute()) {
        return given;
      }
      Path folder = file.toAbsolutePath().normalize().getParent();
      return folder.resolve(given).normalize().toString();
    }
  }

  /** The known name that takes the fewest changes of letters; for 'did you mean'. */
  public static String nearest(String given, List<String> known) {
    return known.stream()
        .min(Comparator.comparingInt((String k) -> changes(given, k)).thenComparing(k -> k))
        .orElse("");
  }

  /** Edit distance of Levenshtein (1966). */
  private static int changes(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int above = row[j];
        row[j] =
            Math.min(
                Math.min(row[j - 1], above) + 1,
                diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1));
        diagonal = above;
      }
    }
    return row[b.length()];
  }
}
