package dev.ullage.emit;

import freemarker.core.TemplateClassResolver;
import freemarker.template.Configuration;
import freemarker.template.TemplateException;
import freemarker.template.TemplateExceptionHandler;
import freemarker.template.TemplateMethodModelEx;
import freemarker.template.TemplateModelException;
import freemarker.template.TemplateScalarModel;
import java.io.IOException;
import java.io.StringWriter;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.UnaryOperator;

/**
 * The templates of the emitted files, found on the class path below {@code templates/}.
 *
 * <p>A template prints the same text on every machine, whatever its locale. Each escape of {@link
 * Escape} is a function of the same name there: {@code ${cComment(loop.name)}}. Records that a
 * template reads must be public, or FreeMarker does not see their components.
 */
final class Templates {
  private static final Configuration CONFIGURATION = configure();

  private static final Map<String, Boolean> EXISTING = new ConcurrentHashMap<>();

  private Templates() {}

  /**
   * Fills one template.
   *
   * @param name path below {@code templates/}, such as {@code portable/main.c.ftl}
   * @param model the variables; one that is missing is an error, not an empty text
   * @return the text, tidied
   * @throws IllegalStateException if the template is missing or wrong: a bug of ours
   */
  static String render(String name, Map<String, Object> model) {
    StringWriter text = new StringWriter();
    try {
      CONFIGURATION.getTemplate(name).process(model, text);
    } catch (IOException | TemplateException e) {
      throw new IllegalStateException("The template `" + name + "` failed.", e);
    }
    return tidy(text.toString());
  }

  /** Whether there is a template of that path. */
  static boolean exists(String name) {
    return EXISTING.computeIfAbsent(
        name, any -> Templates.class.getClassLoader().getResource("templates/" + name) != null);
  }

  /** Lets a template be indented for its reader: blanks at line ends and extra blank lines go. */
  static String tidy(String text) {
    String lines = text.replaceAll("\\R", "\n").replaceAll("[ \t]+\n", "\n");
    return lines.strip().isEmpty()
        ? ""
        : lines.replaceAll("\n{3,}", "\n\n").replaceAll("\\A\n+|\\s+\\z", "") + '\n';
  }

  private static Configuration configure() {
    Configuration configuration = new Configuration(Configuration.VERSION_2_3_34);
    configuration.setClassLoaderForTemplateLoading(Templates.class.getClassLoader(), "templates");
    configuration.setLocalizedLookup(false);
    configuration.setTemplateUpdateDelayMilliseconds(Long.MAX_VALUE);
    configuration.setDefaultEncoding("UTF-8");
    configuration.setLocale(Locale.ROOT);
    configuration.setNumberFormat("c");
    configuration.setBooleanFormat("c");
    configuration.setInterpolationSyntax(Configuration.DOLLAR_INTERPOLATION_SYNTAX);
    configuration.setTemplateExceptionHandler(TemplateExceptionHandler.RETHROW_HANDLER);
    configuration.setLogTemplateExceptions(false);
    configuration.setWrapUncheckedExceptions(true);
    configuration.setFallbackOnNullLoopVariable(false);
    configuration.setAPIBuiltinEnabled(false);
    configuration.setNewBuiltinClassResolver(TemplateClassResolver.ALLOWS_NOTHING_RESOLVER);
    configuration.setSharedVariable("cComment", function(Escape::cComment));
    configuration.setSharedVariable("cString", function(Escape::cString));
    configuration.setSharedVariable("makeComment", function(Escape::makeComment));
    configuration.setSharedVariable("makeValue", function(Escape::makeValue));
    configuration.setSharedVariable("markdown", function(Escape::markdown));
    configuration.setSharedVariable("shellWord", function(Escape::shellWord));
    configuration.setSharedVariable("folderName", function(Escape::folderName));
    return configuration;
  }

  private static TemplateMethodModelEx function(UnaryOperator<String> escape) {
    return arguments -> escape.apply(onlyText(arguments));
  }

  private static String onlyText(List<?> arguments) throws TemplateModelException {
    if (arguments.size() == 1 && arguments.get(0) instanceof TemplateScalarModel text) {
      return text.getAsString();
    }
    throw new TemplateModelException("An escape takes one text.");
  }
}
