package phrasecensus.cli;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The layers of DEVELOPERS.md, held against the compiled classes. */
@AnalyzeClasses(packages = "phrasecensus", importOptions = ImportOption.DoNotIncludeTests.class)
class LayersTest {
  @ArchTest
  static final ArchRule MUSIC_KNOWS_ONLY_JAVA_AND_COMMONS =
      classes()
          .that()
          .resideInAPackage("phrasecensus.music..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage(
              "phrasecensus.music..",
              "java..",
              "org.apache.commons.numbers..",
              "org.apache.commons.statistics..",
              "org.apache.commons.rng..");

  @ArchTest
  static final ArchRule ONLY_READERS_IMPORT_PROXYMUSIC =
      noClasses()
          .that()
          .resideOutsideOfPackages("phrasecensus.readers..", "phrasecensus.grammar.binder..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.audiveris..", "jakarta.xml.bind..");

  @ArchTest
  static final ArchRule NOTHING_THAT_RUNS_USES_A_PROGRAM_OF_THE_BUILD =
      noClasses()
          .that()
          .resideOutsideOfPackages("phrasecensus.grammar.binder..", "phrasecensus.schema..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("phrasecensus.grammar.binder..", "phrasecensus.schema..");

  @ArchTest
  static final ArchRule ONLY_SPARK_IMPORTS_SPARK =
      noClasses()
          .that()
          .resideOutsideOfPackage("phrasecensus.spark..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("org.apache.spark..");

  @ArchTest
  static final ArchRule ROWS_KNOW_NO_FILES_AND_NO_ENGINE =
      noClasses()
          .that()
          .resideInAPackage("phrasecensus.rows..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "phrasecensus.comparison..",
              "phrasecensus.store..",
              "phrasecensus.report..",
              "phrasecensus.spark..",
              "phrasecensus.cli..",
              "org.apache.hadoop..",
              "org.apache.parquet..",
              "org.apache.spark..");

  @ArchTest
  static final ArchRule COMPARISON_IS_PLAIN_JAVA_OVER_VALUES =
      classes()
          .that()
          .resideInAPackage("phrasecensus.comparison..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage(
              "phrasecensus.comparison..",
              "phrasecensus.music..",
              "phrasecensus.tables..",
              "java..");

  @ArchTest
  static final ArchRule STORE_KNOWS_NO_MUSIC_AND_NO_ENGINE =
      noClasses()
          .that()
          .resideInAPackage("phrasecensus.store..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "phrasecensus.music..",
              "phrasecensus.readers..",
              "phrasecensus.rows..",
              "phrasecensus.comparison..",
              "phrasecensus.report..",
              "phrasecensus.spark..",
              "phrasecensus.cli..",
              "org.apache.spark..");

  @ArchTest
  static final ArchRule SPARK_KNOWS_NEITHER_PAGES_NOR_COMMANDS =
      noClasses()
          .that()
          .resideInAPackage("phrasecensus.spark..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("phrasecensus.report..", "phrasecensus.cli..");

  @ArchTest
  static final ArchRule READERS_KNOW_MUSIC_ONLY =
      noClasses()
          .that()
          .resideInAPackage("phrasecensus.readers..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "phrasecensus.tables..",
              "phrasecensus.report..",
              "phrasecensus.rows..",
              "phrasecensus.comparison..",
              "phrasecensus.store..",
              "phrasecensus.spark..",
              "phrasecensus.cli..",
              "org.apache.hadoop..");

  @ArchTest
  static final ArchRule TABLES_KNOW_NOTHING_OF_OURS =
      noClasses()
          .that()
          .resideInAPackage("phrasecensus.tables..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "phrasecensus.music..",
              "phrasecensus.readers..",
              "phrasecensus.report..",
              "phrasecensus.rows..",
              "phrasecensus.comparison..",
              "phrasecensus.store..",
              "phrasecensus.spark..",
              "phrasecensus.cli..");

  @ArchTest
  static final ArchRule REPORT_KNOWS_NO_READERS_AND_NO_ENGINE =
      noClasses()
          .that()
          .resideInAPackage("phrasecensus.report..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "phrasecensus.readers..",
              "phrasecensus.rows..",
              "phrasecensus.comparison..",
              "phrasecensus.store..",
              "phrasecensus.spark..",
              "phrasecensus.cli..",
              "org.apache.hadoop..");

  @ArchTest
  static final ArchRule NO_CYCLES_BETWEEN_MODULES =
      slices().matching("phrasecensus.(*)..").should().beFreeOfCycles();

  @ArchTest
  static final ArchRule NO_CYCLES_INSIDE_MODULES =
      slices().matching("phrasecensus.*.(*)..").should().beFreeOfCycles();

  @ArchTest
  static final ArchRule NO_CATCH_ALL_PACKAGES =
      noClasses()
          .should()
          .resideInAnyPackage("..util..", "..common..", "..helper..", "..helpers..", "..utils..");

  @ArchTest
  static final ArchRule ONLY_MAIN_ENDS_THE_PROCESS =
      noClasses()
          .that()
          .doNotHaveFullyQualifiedName("phrasecensus.cli.Main")
          .should()
          .callMethod(System.class, "exit", int.class);
}
