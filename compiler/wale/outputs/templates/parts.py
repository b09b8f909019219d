"""Made of `parts.html.j2` by `python -m wale.outputs.templates.ready`; not for editing."""

# mypy: ignore-errors
# ruff: noqa
# fmt: off
JINJA = '3.1.6'
DIGEST = '618fe213252b1c189df5b1d398de70c36360c394b090559f5f3bc362658f17eb'
from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'parts.html.j2'

def root(context, missing=missing):
    resolve = context.resolve_or_missing
    undefined = environment.undefined
    concat = environment.concat
    cond_expr_undefined = Undefined
    if 0: yield None
    l_0_block = l_0_place = l_0_words = l_0_digits = l_0_steps = l_0_definitions = l_0_heading = l_0_table = l_0_columns = l_0_run_of_rows = l_0_chart = l_0_charts = l_0_chart_box = l_0_legend = l_0_joins = l_0_chart_words = l_0_word_rows = l_0_schematic = l_0_drawing = l_0_drawings = missing
    try:
        t_1 = environment.filters['length']
    except KeyError:
        @internalcode
        def t_1(*unused):
            raise TemplateRuntimeError("No filter named 'length' found.")
    try:
        t_2 = environment.filters['prose']
    except KeyError:
        @internalcode
        def t_2(*unused):
            raise TemplateRuntimeError("No filter named 'prose' found.")
    try:
        t_3 = environment.filters['round']
    except KeyError:
        @internalcode
        def t_3(*unused):
            raise TemplateRuntimeError("No filter named 'round' found.")
    try:
        t_4 = environment.filters['sum']
    except KeyError:
        @internalcode
        def t_4(*unused):
            raise TemplateRuntimeError("No filter named 'sum' found.")
    pass
    def macro(l_1_block, l_1_medium, l_1_sizes):
        t_5 = []
        if l_1_block is missing:
            l_1_block = undefined("parameter 'block' was not provided", name='block')
        if l_1_medium is missing:
            l_1_medium = undefined("parameter 'medium' was not provided", name='medium')
        if l_1_sizes is missing:
            l_1_sizes = undefined("parameter 'sizes' was not provided", name='sizes')
        pass
        if (environment.getattr(l_1_block, 'kind') == 'paragraph'):
            pass
            t_5.extend((
                '<p',
                escape(context.call((undefined(name='place') if l_0_place is missing else l_0_place), environment.getattr(l_1_block, 'part'), environment.getitem(environment.getattr(environment.getattr(l_1_block, 'made'), 'ids'), 0))),
                '>',
                escape(context.call((undefined(name='words') if l_0_words is missing else l_0_words), environment.getattr(l_1_block, 'part'))),
                '</p>\n',
            ))
        elif (environment.getattr(l_1_block, 'kind') == 'steps'):
            pass
            t_5.extend((
                escape(context.call((undefined(name='steps') if l_0_steps is missing else l_0_steps), l_1_block, l_1_medium)),
                '\n',
            ))
        elif (environment.getattr(l_1_block, 'kind') == 'bullets'):
            pass
            t_5.extend((
                '<ul id="',
                escape(environment.getattr(l_1_block, 'ident')),
                '">\n',
            ))
            l_2_loop = missing
            for l_2_item, l_2_loop in LoopContext(environment.getitem(environment.getattr(l_1_block, 'part'), 'items'), undefined):
                l_2_entries = missing
                _loop_vars = {}
                pass
                l_2_entries = environment.getitem(environment.getattr(environment.getattr(l_1_block, 'made'), 'entries'), environment.getattr(l_2_loop, 'index0'))
                _loop_vars['entries'] = l_2_entries
                t_5.extend((
                    '<li',
                    escape(context.call((undefined(name='place') if l_0_place is missing else l_0_place), l_2_item, environment.getitem(environment.getattr(environment.getattr(l_1_block, 'made'), 'ids'), environment.getattr(l_2_loop, 'index0')), _loop_vars=_loop_vars)),
                    '>',
                ))
                if (undefined(name='entries') if l_2_entries is missing else l_2_entries):
                    pass
                    t_5.extend((
                        '<strong class="entry">',
                        escape(t_2(environment.getattr(l_2_item, 'strong'))),
                        '</strong>',
                    ))
                    for l_3_one in (undefined(name='entries') if l_2_entries is missing else l_2_entries):
                        _loop_vars = {}
                        pass
                        t_5.extend((
                            ' <span class="entry">',
                            escape(t_2(l_3_one)),
                            '</span>',
                        ))
                    l_3_one = missing
                else:
                    pass
                    t_5.append(
                        escape(context.call((undefined(name='words') if l_0_words is missing else l_0_words), l_2_item, _loop_vars=_loop_vars)),
                    )
                t_5.append(
                    '</li>\n',
                )
            l_2_loop = l_2_item = l_2_entries = missing
            t_5.append(
                '</ul>\n',
            )
        elif (environment.getattr(l_1_block, 'kind') == 'definitions'):
            pass
            t_5.extend((
                escape(context.call((undefined(name='definitions') if l_0_definitions is missing else l_0_definitions), l_1_block, l_1_medium)),
                '\n',
            ))
        elif (environment.getattr(l_1_block, 'kind') == 'table'):
            pass
            t_5.extend((
                escape(context.call((undefined(name='table') if l_0_table is missing else l_0_table), l_1_block)),
                '\n',
            ))
        elif (environment.getattr(l_1_block, 'kind') == 'caution'):
            pass
            t_5.extend((
                '<aside id="',
                escape(environment.getattr(l_1_block, 'ident')),
                '" class="caution" role="note" aria-label="',
                escape(environment.getattr(environment.getattr(l_1_block, 'part'), 'title')),
                '">\n<p><strong>',
                escape(environment.getattr(environment.getattr(l_1_block, 'part'), 'title')),
                '</strong></p>\n<p>',
                escape(t_2(environment.getattr(environment.getattr(l_1_block, 'part'), 'text'))),
                '</p>\n</aside>\n',
            ))
        elif (environment.getattr(l_1_block, 'kind') == 'chart'):
            pass
            t_5.extend((
                escape(context.call((undefined(name='chart') if l_0_chart is missing else l_0_chart), l_1_block, l_1_medium)),
                '\n',
            ))
        elif (environment.getattr(l_1_block, 'kind') == 'charts'):
            pass
            t_5.extend((
                escape(context.call((undefined(name='charts') if l_0_charts is missing else l_0_charts), l_1_block)),
                '\n',
            ))
        elif (environment.getattr(l_1_block, 'kind') == 'schematic'):
            pass
            t_5.extend((
                escape(context.call((undefined(name='schematic') if l_0_schematic is missing else l_0_schematic), l_1_block, l_1_sizes)),
                '\n',
            ))
        elif (environment.getattr(l_1_block, 'kind') == 'drawing'):
            pass
            t_5.extend((
                escape(context.call((undefined(name='drawing') if l_0_drawing is missing else l_0_drawing), l_1_block)),
                '\n',
            ))
        elif (environment.getattr(l_1_block, 'kind') == 'drawings'):
            pass
            t_5.extend((
                escape(context.call((undefined(name='drawings') if l_0_drawings is missing else l_0_drawings), l_1_block, l_1_medium)),
                '\n',
            ))
        return concat(t_5)
    context.exported_vars.add('block')
    context.vars['block'] = l_0_block = Macro(environment, macro, 'block', ('block', 'medium', 'sizes'), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_item, l_1_ident):
        t_6 = []
        if l_1_item is missing:
            l_1_item = undefined("parameter 'item' was not provided", name='item')
        if l_1_ident is missing:
            l_1_ident = undefined("parameter 'ident' was not provided", name='ident')
        pass
        if l_1_ident:
            pass
            t_6.extend((
                ' id="',
                escape(l_1_ident),
                '" data-address="',
                escape(environment.getattr(l_1_item, 'address')),
                '"',
            ))
        return concat(t_6)
    context.exported_vars.add('place')
    context.vars['place'] = l_0_place = Macro(environment, macro, 'place', ('item', 'ident'), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_item):
        t_7 = []
        if l_1_item is missing:
            l_1_item = undefined("parameter 'item' was not provided", name='item')
        pass
        if environment.getattr(l_1_item, 'strong'):
            pass
            t_7.extend((
                '<strong>',
                escape(t_2(environment.getattr(l_1_item, 'strong'))),
                '</strong> ',
            ))
        t_7.append(
            escape(t_2(environment.getattr(l_1_item, 'text'))),
        )
        return concat(t_7)
    context.exported_vars.add('words')
    context.vars['words'] = l_0_words = Macro(environment, macro, 'words', ('item',), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_number):
        t_8 = []
        if l_1_number is missing:
            l_1_number = undefined("parameter 'number' was not provided", name='number')
        pass
        t_8.append(
            escape(('one' if (l_1_number < 10) else ('two' if (l_1_number < 100) else 'more'))),
        )
        return concat(t_8)
    context.exported_vars.add('digits')
    context.vars['digits'] = l_0_digits = Macro(environment, macro, 'digits', ('number',), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_block, l_1_medium):
        t_9 = []
        if l_1_block is missing:
            l_1_block = undefined("parameter 'block' was not provided", name='block')
        if l_1_medium is missing:
            l_1_medium = undefined("parameter 'medium' was not provided", name='medium')
        pass
        if environment.getattr(environment.getattr(l_1_block, 'part'), 'title'):
            pass
            t_9.extend((
                '<h3 id="',
                escape(environment.getattr(l_1_block, 'ident')),
                '">',
                escape(t_2(environment.getattr(environment.getattr(l_1_block, 'part'), 'title'))),
                '</h3>\n',
            ))
        t_9.append(
            '<ol class="steps"',
        )
        if (environment.getattr(environment.getattr(l_1_block, 'part'), 'start') != 1):
            pass
            t_9.extend((
                ' start="',
                escape(environment.getattr(environment.getattr(l_1_block, 'part'), 'start')),
                '"',
            ))
            if (l_1_medium != 'screen'):
                pass
                t_9.extend((
                    ' style="counter-reset: list-item ',
                    escape((environment.getattr(environment.getattr(l_1_block, 'part'), 'start') - 1)),
                    '"',
                ))
        if environment.getattr(environment.getattr(l_1_block, 'part'), 'title'):
            pass
            t_9.extend((
                ' aria-labelledby="',
                escape(environment.getattr(l_1_block, 'ident')),
                '"',
            ))
        t_9.append(
            '>\n',
        )
        l_2_loop = missing
        for l_2_item, l_2_loop in LoopContext(environment.getitem(environment.getattr(l_1_block, 'part'), 'items'), undefined):
            _loop_vars = {}
            pass
            t_9.extend((
                '<li',
                escape(context.call((undefined(name='place') if l_0_place is missing else l_0_place), l_2_item, environment.getitem(environment.getattr(environment.getattr(l_1_block, 'made'), 'ids'), environment.getattr(l_2_loop, 'index0')), _loop_vars=_loop_vars)),
            ))
            if (l_1_medium != 'screen'):
                pass
                t_9.extend((
                    ' class="',
                    escape(context.call((undefined(name='digits') if l_0_digits is missing else l_0_digits), (environment.getattr(environment.getattr(l_1_block, 'part'), 'start') + environment.getattr(l_2_loop, 'index0')), _loop_vars=_loop_vars)),
                    '"',
                ))
            t_9.extend((
                '>',
                escape(context.call((undefined(name='words') if l_0_words is missing else l_0_words), l_2_item, _loop_vars=_loop_vars)),
                '</li>\n',
            ))
        l_2_loop = l_2_item = missing
        t_9.append(
            '</ol>\n',
        )
        return concat(t_9)
    context.exported_vars.add('steps')
    context.vars['steps'] = l_0_steps = Macro(environment, macro, 'steps', ('block', 'medium'), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_block, l_1_medium):
        t_10 = []
        if l_1_block is missing:
            l_1_block = undefined("parameter 'block' was not provided", name='block')
        if l_1_medium is missing:
            l_1_medium = undefined("parameter 'medium' was not provided", name='medium')
        pass
        if (l_1_medium != 'screen'):
            pass
            t_10.extend((
                '<ul id="',
                escape(environment.getattr(l_1_block, 'ident')),
                '" class="terms">\n',
            ))
            for (l_2_term, l_2_meaning) in environment.getitem(environment.getattr(l_1_block, 'part'), 'items'):
                _loop_vars = {}
                pass
                t_10.extend((
                    '<li><strong>',
                    escape(t_2(l_2_term)),
                    '</strong> ',
                    escape(t_2(l_2_meaning)),
                    '</li>\n',
                ))
            l_2_term = l_2_meaning = missing
            t_10.append(
                '</ul>\n',
            )
        else:
            pass
            t_10.extend((
                '<dl id="',
                escape(environment.getattr(l_1_block, 'ident')),
                '">\n',
            ))
            for (l_2_term, l_2_meaning) in environment.getitem(environment.getattr(l_1_block, 'part'), 'items'):
                _loop_vars = {}
                pass
                t_10.extend((
                    '<div><dt>',
                    escape(t_2(l_2_term)),
                    '</dt><dd>',
                    escape(t_2(l_2_meaning)),
                    '</dd></div>\n',
                ))
            l_2_term = l_2_meaning = missing
            t_10.append(
                '</dl>\n',
            )
        return concat(t_10)
    context.exported_vars.add('definitions')
    context.vars['definitions'] = l_0_definitions = Macro(environment, macro, 'definitions', ('block', 'medium'), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_text, l_1_scope, l_1_figures):
        t_11 = []
        if l_1_text is missing:
            l_1_text = undefined("parameter 'text' was not provided", name='text')
        if l_1_scope is missing:
            l_1_scope = undefined("parameter 'scope' was not provided", name='scope')
        if l_1_figures is missing:
            l_1_figures = undefined("parameter 'figures' was not provided", name='figures')
        pass
        if l_1_text:
            pass
            t_11.extend((
                '<th scope="',
                escape(l_1_scope),
                '"',
            ))
            if l_1_figures:
                pass
                t_11.append(
                    ' class="figures"',
                )
            t_11.extend((
                '>',
                escape(t_2(l_1_text)),
                '</th>\n',
            ))
        else:
            pass
            t_11.append(
                '<td></td>\n',
            )
        return concat(t_11)
    context.exported_vars.add('heading')
    context.vars['heading'] = l_0_heading = Macro(environment, macro, 'heading', ('text', 'scope', 'figures'), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_block):
        t_12 = []
        if l_1_block is missing:
            l_1_block = undefined("parameter 'block' was not provided", name='block')
        pass
        t_12.extend((
            '<div id="',
            escape(environment.getattr(l_1_block, 'ident')),
            '" class="scroll',
        ))
        for l_2_class in environment.getattr(environment.getattr(l_1_block, 'made'), 'classes'):
            _loop_vars = {}
            pass
            t_12.extend((
                ' ',
                escape(l_2_class),
            ))
        l_2_class = missing
        t_12.extend((
            '" role="region" aria-labelledby="',
            escape(environment.getattr(environment.getattr(l_1_block, 'made'), 'caption_id')),
            '" tabindex="0">\n',
        ))
        if environment.getattr(environment.getattr(l_1_block, 'made'), 'part_ids'):
            pass
            t_12.extend((
                '<p class="caption" id="',
                escape(environment.getattr(environment.getattr(l_1_block, 'made'), 'caption_id')),
                '">',
                escape(t_2(environment.getattr(environment.getattr(l_1_block, 'part'), 'caption'))),
                '</p>\n<div class="beside">\n',
            ))
            l_2_loop = missing
            for l_2_run, l_2_loop in LoopContext(environment.getattr(environment.getattr(l_1_block, 'made'), 'runs'), undefined):
                _loop_vars = {}
                pass
                if environment.getattr(environment.getattr(l_1_block, 'made'), 'widths'):
                    pass
                    t_12.extend((
                        '<div class="part" style="width:',
                        escape(t_3(t_4(environment, environment.getattr(environment.getattr(l_1_block, 'made'), 'widths')), 2)),
                        'em">',
                        escape(context.call((undefined(name='run_of_rows') if l_0_run_of_rows is missing else l_0_run_of_rows), l_1_block, l_2_run, environment.getattr(l_2_loop, 'index'), _loop_vars=_loop_vars)),
                        '</div>\n',
                    ))
                else:
                    pass
                    t_12.extend((
                        escape(context.call((undefined(name='run_of_rows') if l_0_run_of_rows is missing else l_0_run_of_rows), l_1_block, l_2_run, environment.getattr(l_2_loop, 'index'), _loop_vars=_loop_vars)),
                        '\n',
                    ))
            l_2_loop = l_2_run = missing
            t_12.append(
                '</div>\n',
            )
        else:
            pass
            t_12.extend((
                escape(context.call((undefined(name='run_of_rows') if l_0_run_of_rows is missing else l_0_run_of_rows), l_1_block, environment.getattr(environment.getattr(l_1_block, 'part'), 'rows'), 0)),
                '\n',
            ))
        t_12.append(
            '</div>\n',
        )
        if environment.getattr(environment.getattr(l_1_block, 'part'), 'note'):
            pass
            t_12.extend((
                '<p class="note">',
                escape(t_2(environment.getattr(environment.getattr(l_1_block, 'part'), 'note'))),
                '</p>\n',
            ))
        return concat(t_12)
    context.exported_vars.add('table')
    context.vars['table'] = l_0_table = Macro(environment, macro, 'table', ('block',), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_widths):
        t_13 = []
        if l_1_widths is missing:
            l_1_widths = undefined("parameter 'widths' was not provided", name='widths')
        pass
        if l_1_widths:
            pass
            t_13.append(
                '<colgroup>',
            )
            for l_2_width in l_1_widths:
                _loop_vars = {}
                pass
                t_13.extend((
                    '<col style="width:',
                    escape(l_2_width),
                    'em"/>',
                ))
            l_2_width = missing
            t_13.append(
                '</colgroup>\n',
            )
        return concat(t_13)
    context.exported_vars.add('columns')
    context.vars['columns'] = l_0_columns = Macro(environment, macro, 'columns', ('widths',), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_block, l_1_rows, l_1_number):
        t_14 = []
        if l_1_block is missing:
            l_1_block = undefined("parameter 'block' was not provided", name='block')
        if l_1_rows is missing:
            l_1_rows = undefined("parameter 'rows' was not provided", name='rows')
        if l_1_number is missing:
            l_1_number = undefined("parameter 'number' was not provided", name='number')
        pass
        t_14.append(
            '<table',
        )
        if environment.getattr(environment.getattr(l_1_block, 'made'), 'widths'):
            pass
            t_14.append(
                ' class="set"',
            )
        if l_1_number:
            pass
            t_14.extend((
                ' aria-labelledby="',
                escape(environment.getattr(environment.getattr(l_1_block, 'made'), 'caption_id')),
                ' ',
                escape(environment.getitem(environment.getattr(environment.getattr(l_1_block, 'made'), 'part_ids'), (l_1_number - 1))),
                '"',
            ))
        t_14.append(
            '>\n',
        )
        if l_1_number:
            pass
            t_14.extend((
                '<caption id="',
                escape(environment.getitem(environment.getattr(environment.getattr(l_1_block, 'made'), 'part_ids'), (l_1_number - 1))),
                '">Part ',
                escape(l_1_number),
                ' of ',
                escape(t_1(environment.getattr(environment.getattr(l_1_block, 'made'), 'part_ids'))),
                '</caption>\n',
            ))
        else:
            pass
            t_14.extend((
                '<caption id="',
                escape(environment.getattr(environment.getattr(l_1_block, 'made'), 'caption_id')),
                '">',
                escape(t_2(environment.getattr(environment.getattr(l_1_block, 'part'), 'caption'))),
                '</caption>\n',
            ))
        t_14.extend((
            escape(context.call((undefined(name='columns') if l_0_columns is missing else l_0_columns), environment.getattr(environment.getattr(l_1_block, 'made'), 'widths'))),
            '<thead>\n<tr>\n',
        ))
        l_2_loop = missing
        for l_2_cell, l_2_loop in LoopContext(environment.getattr(environment.getattr(l_1_block, 'part'), 'header'), undefined):
            _loop_vars = {}
            pass
            t_14.append(
                escape(context.call((undefined(name='heading') if l_0_heading is missing else l_0_heading), l_2_cell, 'col', environment.getitem(environment.getattr(environment.getattr(l_1_block, 'made'), 'figures'), environment.getattr(l_2_loop, 'index0')), _loop_vars=_loop_vars)),
            )
        l_2_loop = l_2_cell = missing
        t_14.append(
            '</tr>\n</thead>\n<tbody>\n',
        )
        l_2_loop = missing
        for l_2_row, l_2_loop in LoopContext(l_1_rows, undefined):
            _loop_vars = {}
            pass
            t_14.append(
                '<tr>\n',
            )
            l_3_loop = missing
            for l_3_cell, l_3_loop in LoopContext(l_2_row, undefined):
                _loop_vars = {}
                pass
                if environment.getattr(l_3_loop, 'first'):
                    pass
                    t_14.append(
                        escape(context.call((undefined(name='heading') if l_0_heading is missing else l_0_heading), l_3_cell, 'row', False, _loop_vars=_loop_vars)),
                    )
                else:
                    pass
                    t_14.append(
                        '<td',
                    )
                    if environment.getitem(environment.getattr(environment.getattr(l_1_block, 'made'), 'figures'), environment.getattr(l_3_loop, 'index0')):
                        pass
                        t_14.append(
                            ' class="figures"',
                        )
                    t_14.extend((
                        '>',
                        escape(t_2(l_3_cell)),
                        '</td>\n',
                    ))
            l_3_loop = l_3_cell = missing
            t_14.append(
                '</tr>\n',
            )
        l_2_loop = l_2_row = missing
        t_14.append(
            '</tbody>\n</table>\n',
        )
        return concat(t_14)
    context.exported_vars.add('run_of_rows')
    context.vars['run_of_rows'] = l_0_run_of_rows = Macro(environment, macro, 'run_of_rows', ('block', 'rows', 'number'), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_block, l_1_medium):
        t_15 = []
        if l_1_block is missing:
            l_1_block = undefined("parameter 'block' was not provided", name='block')
        if l_1_medium is missing:
            l_1_medium = undefined("parameter 'medium' was not provided", name='medium')
        pass
        t_15.extend((
            '<h3 id="',
            escape(environment.getattr(l_1_block, 'ident')),
            '">Chart: ',
            escape(environment.getattr(environment.getattr(l_1_block, 'part'), 'name')),
            '</h3>\n',
            escape(context.call((undefined(name='chart_box') if l_0_chart_box is missing else l_0_chart_box), l_1_block)),
            '\n',
        ))
        if environment.getattr(environment.getattr(l_1_block, 'part'), 'words'):
            pass
            if (l_1_medium == 'screen'):
                pass
                t_15.append(
                    '<details',
                )
                if (t_1(environment.getattr(environment.getattr(l_1_block, 'part'), 'words')) <= 60):
                    pass
                    t_15.append(
                        ' open',
                    )
                t_15.extend((
                    '>\n<summary>Chart ',
                    escape(environment.getattr(environment.getattr(l_1_block, 'part'), 'name')),
                    ' in words</summary>\n',
                    escape(context.call((undefined(name='chart_words') if l_0_chart_words is missing else l_0_chart_words), l_1_block)),
                    '\n</details>\n',
                ))
            else:
                pass
                t_15.extend((
                    '<h4 id="',
                    escape(environment.getattr(environment.getattr(l_1_block, 'made'), 'words_id')),
                    '">Chart ',
                    escape(environment.getattr(environment.getattr(l_1_block, 'part'), 'name')),
                    ' in words</h4>\n',
                    escape(context.call((undefined(name='chart_words') if l_0_chart_words is missing else l_0_chart_words), l_1_block)),
                    '\n',
                ))
        return concat(t_15)
    context.exported_vars.add('chart')
    context.vars['chart'] = l_0_chart = Macro(environment, macro, 'chart', ('block', 'medium'), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_block):
        t_16 = []
        if l_1_block is missing:
            l_1_block = undefined("parameter 'block' was not provided", name='block')
        pass
        t_16.extend((
            '<h3 id="',
            escape(environment.getattr(l_1_block, 'ident')),
            '">',
            escape(t_2(environment.getattr(environment.getattr(l_1_block, 'part'), 'title'))),
            '</h3>\n',
        ))
        if environment.getattr(environment.getattr(l_1_block, 'part'), 'note'):
            pass
            t_16.extend((
                '<p class="before">',
                escape(t_2(environment.getattr(environment.getattr(l_1_block, 'part'), 'note'))),
                '</p>\n',
            ))
        t_16.append(
            '<div class="charts">\n',
        )
        for l_2_one in environment.getattr(environment.getattr(l_1_block, 'made'), 'charts'):
            _loop_vars = {}
            pass
            t_16.extend((
                '<div>\n<h4 id="',
                escape(environment.getattr(l_2_one, 'ident')),
                '">',
                escape(environment.getattr(environment.getattr(l_2_one, 'part'), 'name')),
                '</h4>\n',
                escape(context.call((undefined(name='chart_box') if l_0_chart_box is missing else l_0_chart_box), l_2_one, _loop_vars=_loop_vars)),
                '\n</div>\n',
            ))
        l_2_one = missing
        t_16.append(
            '</div>\n',
        )
        return concat(t_16)
    context.exported_vars.add('charts')
    context.vars['charts'] = l_0_charts = Macro(environment, macro, 'charts', ('block',), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_block):
        t_17 = []
        if l_1_block is missing:
            l_1_block = undefined("parameter 'block' was not provided", name='block')
        pass
        t_17.append(
            '<div class="chart-box',
        )
        if (t_1(environment.getattr(environment.getattr(l_1_block, 'made'), 'tiles')) == 1):
            pass
            t_17.append(
                ' whole',
            )
        t_17.append(
            '">\n',
        )
        if environment.getattr(environment.getattr(l_1_block, 'made'), 'is_legend_first'):
            pass
            t_17.extend((
                escape(context.call((undefined(name='legend') if l_0_legend is missing else l_0_legend), l_1_block)),
                '\n',
            ))
        l_2_loop = missing
        for (l_2_tile, l_2_svg), l_2_loop in LoopContext(environment.getattr(environment.getattr(l_1_block, 'made'), 'tiles'), undefined):
            _loop_vars = {}
            pass
            t_17.append(
                '<figure class="chart">\n',
            )
            if (t_1(environment.getattr(environment.getattr(l_1_block, 'made'), 'tiles')) > 1):
                pass
                t_17.extend((
                    '<figcaption>Part ',
                    escape(environment.getattr(l_2_loop, 'index')),
                    ' of ',
                    escape(environment.getattr(l_2_loop, 'length')),
                    ': columns ',
                    escape(environment.getitem(environment.getattr(l_2_tile, 'columns'), 0)),
                    '–',
                    escape(environment.getitem(environment.getattr(l_2_tile, 'columns'), 1)),
                    ', rows ',
                    escape(environment.getitem(environment.getattr(l_2_tile, 'rows'), 0)),
                    '–',
                    escape(environment.getitem(environment.getattr(l_2_tile, 'rows'), 1)),
                    escape(context.call((undefined(name='joins') if l_0_joins is missing else l_0_joins), l_2_tile, _loop_vars=_loop_vars)),
                    '</figcaption>\n',
                ))
            t_17.extend((
                '<div class="scroll" role="region" aria-label="Chart: ',
                escape(environment.getattr(environment.getattr(l_1_block, 'part'), 'name')),
                '" tabindex="0">',
                escape(l_2_svg),
                '</div>\n</figure>\n',
            ))
            if (environment.getattr(l_2_loop, 'first') and (not environment.getattr(environment.getattr(l_1_block, 'made'), 'is_legend_first'))):
                pass
                t_17.extend((
                    escape(context.call((undefined(name='legend') if l_0_legend is missing else l_0_legend), l_1_block, _loop_vars=_loop_vars)),
                    '\n',
                ))
        l_2_loop = l_2_tile = l_2_svg = missing
        t_17.append(
            '</div>\n',
        )
        return concat(t_17)
    context.exported_vars.add('chart_box')
    context.vars['chart_box'] = l_0_chart_box = Macro(environment, macro, 'chart_box', ('block',), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_block):
        t_18 = []
        if l_1_block is missing:
            l_1_block = undefined("parameter 'block' was not provided", name='block')
        pass
        t_18.append(
            '<div class="legend">\n<ul class="cells">\n',
        )
        for (l_2_svg, l_2_name) in environment.getattr(environment.getattr(l_1_block, 'made'), 'legend'):
            _loop_vars = {}
            pass
            t_18.extend((
                '<li>',
                escape(l_2_svg),
                ' ',
                escape(l_2_name),
                '</li>\n',
            ))
        l_2_svg = l_2_name = missing
        t_18.append(
            '</ul>\n',
        )
        if environment.getattr(environment.getattr(l_1_block, 'made'), 'starts'):
            pass
            t_18.append(
                '<p class="starts-lead">Start at the triangle:</p>\n<ul class="starts">\n',
            )
            for l_2_group in environment.getattr(environment.getattr(l_1_block, 'made'), 'starts'):
                _loop_vars = {}
                pass
                t_18.extend((
                    '<li><strong>',
                    escape(environment.getattr(l_2_group, 'letter')),
                    '</strong> ',
                    escape(environment.getattr(l_2_group, 'text')),
                    ' (column ',
                    escape(environment.getattr(l_2_group, 'column')),
                    ')</li>\n',
                ))
            l_2_group = missing
            t_18.append(
                '</ul>\n',
            )
        for l_2_note in environment.getattr(environment.getattr(l_1_block, 'made'), 'notes'):
            _loop_vars = {}
            pass
            t_18.extend((
                '<p class="note">',
                escape(t_2(l_2_note)),
                '</p>\n',
            ))
        l_2_note = missing
        t_18.append(
            '</div>\n',
        )
        return concat(t_18)
    context.exported_vars.add('legend')
    context.vars['legend'] = l_0_legend = Macro(environment, macro, 'legend', ('block',), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_tile):
        t_19 = []
        if l_1_tile is missing:
            l_1_tile = undefined("parameter 'tile' was not provided", name='tile')
        pass
        l_2_loop = missing
        for (l_2_side, l_2_number), l_2_loop in LoopContext(environment.getattr(l_1_tile, 'joins'), undefined):
            _loop_vars = {}
            pass
            t_19.extend((
                escape(('; goes on ' if environment.getattr(l_2_loop, 'first') else ', ')),
                escape((l_2_side if (l_2_side in ('above', 'below')) else markup_join(('at the ', l_2_side, )))),
                ' in part ',
                escape(l_2_number),
            ))
        l_2_loop = l_2_side = l_2_number = missing
        return concat(t_19)
    context.exported_vars.add('joins')
    context.vars['joins'] = l_0_joins = Macro(environment, macro, 'joins', ('tile',), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_block):
        t_20 = []
        if l_1_block is missing:
            l_1_block = undefined("parameter 'block' was not provided", name='block')
        pass
        if environment.getattr(environment.getattr(l_1_block, 'made'), 'halves'):
            pass
            t_20.append(
                '<div class="halves">\n',
            )
            def t_21(fiter):
                for l_2_words in fiter:
                    if l_2_words:
                        yield l_2_words
            for l_2_words in t_21(environment.getattr(environment.getattr(l_1_block, 'made'), 'halves')):
                _loop_vars = {}
                pass
                t_20.extend((
                    escape(context.call((undefined(name='word_rows') if l_0_word_rows is missing else l_0_word_rows), l_2_words, '', _loop_vars=_loop_vars)),
                    '\n',
                ))
            l_2_words = missing
            t_20.append(
                '</div>\n',
            )
        else:
            pass
            t_20.extend((
                escape(context.call((undefined(name='word_rows') if l_0_word_rows is missing else l_0_word_rows), environment.getattr(environment.getattr(l_1_block, 'part'), 'words'), (' brief' if environment.getattr(environment.getattr(l_1_block, 'made'), 'is_brief') else ''))),
                '\n',
            ))
        return concat(t_20)
    context.exported_vars.add('chart_words')
    context.vars['chart_words'] = l_0_chart_words = Macro(environment, macro, 'chart_words', ('block',), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_words, l_1_class):
        t_22 = []
        if l_1_words is missing:
            l_1_words = undefined("parameter 'words' was not provided", name='words')
        if l_1_class is missing:
            l_1_class = undefined("parameter 'class' was not provided", name='class')
        pass
        t_22.extend((
            '<ul class="rows',
            escape(l_1_class),
            '">\n',
        ))
        for (l_2_label, l_2_text) in l_1_words:
            _loop_vars = {}
            pass
            t_22.extend((
                '<li><strong>',
                escape(l_2_label),
                '</strong> ',
                escape(t_2(l_2_text)),
                '</li>\n',
            ))
        l_2_label = l_2_text = missing
        t_22.append(
            '</ul>\n',
        )
        return concat(t_22)
    context.exported_vars.add('word_rows')
    context.vars['word_rows'] = l_0_word_rows = Macro(environment, macro, 'word_rows', ('words', 'class'), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_block, l_1_sizes):
        t_23 = []
        if l_1_block is missing:
            l_1_block = undefined("parameter 'block' was not provided", name='block')
        if l_1_sizes is missing:
            l_1_sizes = undefined("parameter 'sizes' was not provided", name='sizes')
        pass
        t_23.append(
            '<div class="schematic-box',
        )
        if (t_1(environment.getattr(environment.getattr(l_1_block, 'part'), 'dimensions')) <= 16):
            pass
            t_23.append(
                ' whole',
            )
        if environment.getattr(environment.getattr(l_1_block, 'made'), 'is_abreast'):
            pass
            t_23.append(
                ' abreast',
            )
        t_23.extend((
            '">\n<h3 id="',
            escape(environment.getattr(l_1_block, 'ident')),
            '">Schematic: ',
            escape(environment.getattr(environment.getattr(l_1_block, 'part'), 'name')),
            '</h3>\n<figure class="schematic">\n',
            escape(environment.getattr(environment.getattr(l_1_block, 'made'), 'svg')),
            '\n',
        ))
        if environment.getattr(environment.getattr(l_1_block, 'part'), 'before'):
            pass
            t_23.extend((
                '<figcaption>Size ',
                escape(environment.getattr(environment.getattr(l_1_block, 'part'), 'size')),
                '. Both stand on one lower edge and centre line; where one line shows, both are the same.</figcaption>\n',
            ))
        else:
            pass
            t_23.extend((
                '<figcaption>Outline of size ',
                escape(environment.getattr(environment.getattr(l_1_block, 'part'), 'size')),
                '; the letters are those of the table.</figcaption>\n',
            ))
        t_23.append(
            '</figure>\n',
        )
        if (environment.getattr(environment.getattr(l_1_block, 'part'), 'dimensions') and (not environment.getattr(environment.getattr(l_1_block, 'made'), 'is_apart'))):
            pass
            t_23.extend((
                '<div class="scroll" role="region" aria-labelledby="',
                escape(environment.getattr(environment.getattr(l_1_block, 'made'), 'caption_id')),
                '" tabindex="0">\n<table class="measures',
            ))
            if environment.getattr(environment.getattr(l_1_block, 'made'), 'widths'):
                pass
                t_23.append(
                    ' set',
                )
            t_23.extend((
                '">\n<caption id="',
                escape(environment.getattr(environment.getattr(l_1_block, 'made'), 'caption_id')),
                '">',
                escape(environment.getattr(environment.getattr(l_1_block, 'part'), 'caption')),
                '</caption>\n',
                escape(context.call((undefined(name='columns') if l_0_columns is missing else l_0_columns), environment.getattr(environment.getattr(l_1_block, 'made'), 'widths'))),
                '<thead>\n<tr><th scope="col">Letter</th><th scope="col">Measure</th>',
            ))
            for l_2_column in context.call(environment.getattr(environment.getattr(l_1_block, 'part'), 'columns'), l_1_sizes):
                _loop_vars = {}
                pass
                t_23.extend((
                    '<th scope="col" class="figures">',
                    escape(l_2_column),
                    '</th>',
                ))
            l_2_column = missing
            t_23.append(
                '</tr>\n</thead>\n<tbody>\n',
            )
            for l_2_dimension in environment.getattr(environment.getattr(l_1_block, 'part'), 'dimensions'):
                _loop_vars = {}
                pass
                t_23.extend((
                    '<tr><td class="letter">',
                    escape(environment.getattr(l_2_dimension, 'letter')),
                    '</td><th scope="row">',
                    escape(environment.getattr(l_2_dimension, 'name')),
                    '</th>',
                ))
                for l_3_value in environment.getitem(l_2_dimension, 'values'):
                    _loop_vars = {}
                    pass
                    t_23.extend((
                        '<td class="figures">',
                        escape(t_2(l_3_value)),
                        '</td>',
                    ))
                l_3_value = missing
                t_23.append(
                    '</tr>\n',
                )
            l_2_dimension = missing
            t_23.append(
                '</tbody>\n</table>\n</div>\n',
            )
        t_23.append(
            '</div>\n',
        )
        return concat(t_23)
    context.exported_vars.add('schematic')
    context.vars['schematic'] = l_0_schematic = Macro(environment, macro, 'schematic', ('block', 'sizes'), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_block):
        t_24 = []
        if l_1_block is missing:
            l_1_block = undefined("parameter 'block' was not provided", name='block')
        pass
        t_24.extend((
            '<figure class="drawing">',
            escape(environment.getattr(environment.getattr(l_1_block, 'made'), 'svg')),
            '</figure>\n',
        ))
        return concat(t_24)
    context.exported_vars.add('drawing')
    context.vars['drawing'] = l_0_drawing = Macro(environment, macro, 'drawing', ('block',), False, False, False, context.eval_ctx.autoescape)
    yield '\n'
    def macro(l_1_block, l_1_medium):
        t_25 = []
        if l_1_block is missing:
            l_1_block = undefined("parameter 'block' was not provided", name='block')
        if l_1_medium is missing:
            l_1_medium = undefined("parameter 'medium' was not provided", name='medium')
        pass
        t_25.extend((
            '<h3 id="',
            escape(environment.getattr(l_1_block, 'ident')),
            '">',
            escape(t_2(environment.getattr(environment.getattr(l_1_block, 'part'), 'title'))),
            '</h3>\n<p class="before">',
            escape(t_2(environment.getattr(environment.getattr(l_1_block, 'part'), 'note'))),
            '</p>\n<div class="alike">\n',
        ))
        l_2_loop = missing
        for l_2_svg, l_2_loop in LoopContext(environment.getattr(environment.getattr(l_1_block, 'made'), 'svgs'), undefined):
            _loop_vars = {}
            pass
            t_25.append(
                '<figure class="drawing"',
            )
            if (l_1_medium != 'screen'):
                pass
                t_25.extend((
                    ' style="width:',
                    escape(environment.getattr(environment.getattr(l_1_block, 'made'), 'width')),
                    'mm"',
                ))
            t_25.extend((
                '>',
                escape(l_2_svg),
                '<figcaption>',
                escape(t_2(environment.getattr(environment.getitem(environment.getitem(environment.getattr(l_1_block, 'part'), 'items'), environment.getattr(l_2_loop, 'index0')), 'caption'))),
                '</figcaption></figure>\n',
            ))
        l_2_loop = l_2_svg = missing
        t_25.append(
            '</div>\n',
        )
        return concat(t_25)
    context.exported_vars.add('drawings')
    context.vars['drawings'] = l_0_drawings = Macro(environment, macro, 'drawings', ('block', 'medium'), False, False, False, context.eval_ctx.autoescape)

blocks = {}
debug_info = '1=36&2=45&3=49&4=54&5=57&6=60&7=64&8=68&9=72&10=76&13=107&14=110&15=113&16=116&17=119&18=123&19=127&20=129&22=132&23=135&24=138&25=141&26=144&27=147&28=150&29=153&30=156&31=159&35=166&37=186&39=205&41=217&42=224&43=228&45=236&46=261&47=266&52=288&53=295&54=299&55=302&56=307&60=320&61=323&62=328&68=341&69=350&70=354&76=376&77=383&78=399&79=403&81=409&82=412&83=416&85=424&90=434&93=440&94=444&98=451&99=456&100=461&104=477&105=489&106=506&107=510&109=521&111=527&114=531&115=535&120=542&122=549&123=552&124=555&126=562&135=584&136=593&137=597&138=600&139=602&140=607&141=614&142=616&145=623&146=627&151=634&152=641&153=646&154=650&157=656&159=661&160=665&166=676&167=684&168=692&169=695&171=699&173=705&174=709&176=725&178=730&179=733&185=744&188=752&189=757&192=766&195=771&196=776&200=787&201=792&206=803&208=823&209=828&211=833&212=841&216=851&220=858&221=867&222=870&223=875&228=888&229=898&230=910&232=914&233=917&234=921&236=928&239=934&240=938&241=941&242=948&243=952&245=955&248=967&249=972&258=1000&259=1007&262=1014&263=1023&264=1027&266=1031&267=1037'
