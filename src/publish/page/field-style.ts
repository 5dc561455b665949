// The look of forms that stand on a page of their own: one field below the other, and one button for a thumb.

export const FIELD_SHEET = `form+p{margin-top:10px}.big{width:100%;min-height:64px;font-size:21px;margin-top:6px}.fields label{display:block;font-weight:700}.fields input:not([type=radio]):not([type=checkbox]),.fields select,.fields textarea{display:block;width:100%;margin-top:2px}
`;
