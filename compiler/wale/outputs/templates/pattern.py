"""Made of `pattern.html.j2` by `python -m wale.outputs.templates.ready`; not for editing."""

# mypy: ignore-errors
# ruff: noqa
# fmt: off
JINJA = '3.1.6'
DIGEST = 'f39f8f93902af75911c9a7acc9883f0e47263d4361c34fec1c7c11d4abe283e3'
from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'pattern.html.j2'

def root(context, missing=missing):
    resolve = context.resolve_or_missing
    undefined = environment.undefined
    concat = environment.concat
    cond_expr_undefined = Undefined
    if 0: yield None
    l_0_pattern = resolve('pattern')
    l_0_medium = resolve('medium')
    l_0_sizes = resolve('sizes')
    l_0_front = resolve('front')
    l_0_sections = resolve('sections')
    l_0_parts = missing
    try:
        t_1 = environment.filters['join']
    except KeyError:
        @internalcode
        def t_1(*unused):
            raise TemplateRuntimeError("No filter named 'join' found.")
    try:
        t_2 = environment.filters['prose']
    except KeyError:
        @internalcode
        def t_2(*unused):
            raise TemplateRuntimeError("No filter named 'prose' found.")
    pass
    l_0_parts = context.vars['parts'] = environment.get_template('parts.html.j2', 'pattern.html.j2')._get_default_module(context)
    context.exported_vars.discard('parts')
    yield '<!DOCTYPE html>\n<html lang="'
    yield escape(environment.getattr((undefined(name='pattern') if l_0_pattern is missing else l_0_pattern), 'language'))
    yield '">\n<head>\n<meta charset="utf-8"/>\n<meta name="viewport" content="width=device-width, initial-scale=1"/>\n<title>'
    yield escape(environment.getattr((undefined(name='pattern') if l_0_pattern is missing else l_0_pattern), 'title'))
    yield '</title>\n<meta name="description" content="'
    yield escape(environment.getattr((undefined(name='pattern') if l_0_pattern is missing else l_0_pattern), 'about'))
    yield '"/>\n<meta name="generator" content="'
    yield escape(environment.getattr((undefined(name='pattern') if l_0_pattern is missing else l_0_pattern), 'compiler'))
    yield '"/>\n'
    if environment.getattr((undefined(name='pattern') if l_0_pattern is missing else l_0_pattern), 'keywords'):
        pass
        yield '<meta name="keywords" content="'
        yield escape(t_1(context.eval_ctx, environment.getattr((undefined(name='pattern') if l_0_pattern is missing else l_0_pattern), 'keywords'), ', '))
        yield '"/>\n'
    yield '<style></style>\n</head>\n<body>\n'
    if ((undefined(name='medium') if l_0_medium is missing else l_0_medium) == 'screen'):
        pass
        yield '<a class="skip" href="#main">Skip to the pattern</a>\n'
    yield '<header class="front">\n<h1>'
    yield escape(environment.getattr((undefined(name='pattern') if l_0_pattern is missing else l_0_pattern), 'title'))
    yield '</h1>\n'
    if (undefined(name='sizes') if l_0_sizes is missing else l_0_sizes):
        pass
        yield '<p class="sizes">'
        yield escape((undefined(name='sizes') if l_0_sizes is missing else l_0_sizes))
        yield '</p>\n'
    if environment.getattr((undefined(name='pattern') if l_0_pattern is missing else l_0_pattern), 'about'):
        pass
        yield '<p class="about">'
        yield escape(t_2(environment.getattr((undefined(name='pattern') if l_0_pattern is missing else l_0_pattern), 'about')))
        yield '</p>\n'
    if (undefined(name='front') if l_0_front is missing else l_0_front):
        pass
        yield escape(context.call(environment.getattr((undefined(name='parts') if l_0_parts is missing else l_0_parts), 'drawing'), (undefined(name='front') if l_0_front is missing else l_0_front)))
        yield '\n'
    yield '</header>\n<nav id="contents" class="contents" aria-labelledby="contents-title">\n<h2 id="contents-title">Contents</h2>\n<ol role="list">\n'
    for l_1_section in (undefined(name='sections') if l_0_sections is missing else l_0_sections):
        _loop_vars = {}
        pass
        yield '<li><a href="#'
        yield escape(environment.getattr(l_1_section, 'id'))
        yield '">'
        yield escape(environment.getattr(l_1_section, 'title'))
        yield '</a></li>\n'
    l_1_section = missing
    yield '</ol>\n</nav>\n<main id="main">\n'
    for l_1_section in (undefined(name='sections') if l_0_sections is missing else l_0_sections):
        _loop_vars = {}
        pass
        if ((undefined(name='medium') if l_0_medium is missing else l_0_medium) == 'screen'):
            pass
            yield '<section id="'
            yield escape(environment.getattr(l_1_section, 'id'))
            yield '" aria-labelledby="'
            yield escape(environment.getattr(l_1_section, 'title_id'))
            yield '">\n<h2 id="'
            yield escape(environment.getattr(l_1_section, 'title_id'))
            yield '">'
            yield escape(environment.getattr(l_1_section, 'title'))
            yield '</h2>\n'
        else:
            pass
            yield '<section>\n<h2 id="'
            yield escape(environment.getattr(l_1_section, 'id'))
            yield '">'
            yield escape(environment.getattr(l_1_section, 'title'))
            yield '</h2>\n'
        for l_2_block in environment.getattr(l_1_section, 'blocks'):
            _loop_vars = {}
            pass
            yield escape(context.call(environment.getattr((undefined(name='parts') if l_0_parts is missing else l_0_parts), 'block'), l_2_block, (undefined(name='medium') if l_0_medium is missing else l_0_medium), environment.getattr((undefined(name='pattern') if l_0_pattern is missing else l_0_pattern), 'sizes'), _loop_vars=_loop_vars))
            yield '\n'
        l_2_block = missing
        yield '</section>\n'
    l_1_section = missing
    yield '</main>\n<footer class="colophon">\n<p>'
    yield escape(environment.getattr((undefined(name='pattern') if l_0_pattern is missing else l_0_pattern), 'title'))
    yield '. Made with '
    yield escape(environment.getattr((undefined(name='pattern') if l_0_pattern is missing else l_0_pattern), 'compiler'))
    yield '.</p>\n</footer>\n</body>\n</html>'

blocks = {}
debug_info = '1=29&3=32&7=34&8=36&9=38&10=40&11=43&16=46&20=50&21=52&22=55&24=57&25=60&27=62&28=64&34=67&35=71&40=77&41=80&42=83&43=87&46=94&48=98&49=101&55=107'
