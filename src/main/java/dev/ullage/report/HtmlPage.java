package dev.ullage.report;

import freemarker.core.TemplateClassResolver;
import freemarker.template.Configuration;
import freemarker.template.TemplateException;
import freemarker.template.TemplateExceptionHandler;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * One HTML file with its style sheets, its program and its data inside. Every text that the
 * template prints is escaped for HTML. The file allows its own style and program only, by their
 * hashes, and nothing from a network.
 */
final class HtmlPage {
  private static final String FOLDER = "templates/report";
  private static final Configuration CONFIGURATION = configure();

  private final List<String> styles;
  private final List<String> scripts;

  /**
   * @param styles style sheets below {@code templates/report}, in their order
   * @param scripts pieces of one module, in their order
   */
  HtmlPage(List<String> styles, List<String> scripts) {
    this.styles = List.copyOf(styles);
    this.scripts = List.copyOf(scripts);
  }

  /**
   * Fills the template.
   *
   * @param template its name below {@code templates/report}
   * @param model its variables, beside those for style and script
   * @throws IllegalStateException if the template is missing or wrong: a bug of ours
   */
  String render(String template, Map<String, Object> model) {
    Map<String, Object> all = new HashMap<>(model);
    all.put("style", joined(styles));
    all.put("styleHash", hash(joined(styles)));
    all.put("script", joined(scripts));
    all.put("scriptHash", hash(joined(scripts)));
    StringWriter page = new StringWriter();
    try {
      CONFIGURATION.getTemplate(template).process(all, page);
    } catch (IOException | TemplateException e) {
      throw new IllegalStateException("The template `" + template + "` failed.", e);
    }
    return page.toString();
  }

  private static String joined(List<String> files) {
    return files.stream().map(HtmlPage::text).collect(Collectors.joining("\n", "\n", ""));
  }

  private static String text(String file) {
    String path = FOLDER + '/' + file;
    try (InputStream in = HtmlPage.class.getClassLoader().getResourceAsStream(path)) {
      if (in == null) {
        throw new IllegalStateException("`" + path + "` is missing.");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).replace("\r\n", "\n");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** As a content security policy names a piece of inline text. */
  private static String hash(String text) {
    try {
      byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(bytes);
      return "sha256-" + Base64.getEncoder().encodeToString(digest);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Templates are named {@code .ftlh}, which makes the library escape what they print. */
  private static Configuration configure() {
    Configuration configuration = new Configuration(Configuration.VERSION_2_3_34);
    configuration.setClassLoaderForTemplateLoading(HtmlPage.class.getClassLoader(), FOLDER);
    configuration.setLocalizedLookup(false);
    configuration.setTemplateUpdateDelayMilliseconds(Long.MAX_VALUE);
    configuration.setDefaultEncoding("UTF-8");
    configuration.setLocale(java.util.Locale.ROOT);
    configuration.setNumberFormat("c");
    configuration.setInterpolationSyntax(Configuration.DOLLAR_INTERPOLATION_SYNTAX);
    configuration.setTemplateExceptionHandler(TemplateExceptionHandler.RETHROW_HANDLER);
    configuration.setLogTemplateExceptions(false);
    configuration.setWrapUncheckedExceptions(true);
    configuration.setFallbackOnNullLoopVariable(false);
    configuration.setAPIBuiltinEnabled(false);
    configuration.setNewBuiltinClassResolver(TemplateClassResolver.ALLOWS_NOTHING_RESOLVER);
    return configuration;
  }
}
